import sharp from "sharp";
import { type CouponPlan, frameFor, gradeCoupon, lookAtPhoto } from "#grading";
import { openMarkerFinder } from "#markers";
import { decodePhoto, markerLibrary } from "#photos";
import { gridPatches } from "../tests/photo/grid-patches.ts";
import { photograph } from "../tests/photo/photograph.ts";
import { makePlate } from "../tests/photo/plate.ts";
import { SEED } from "./example.ts";
import type { Piece } from "./measure.ts";

const rounds = 5;

/** Median CPU seconds of one call of work that waits, all threads, after one call to warm up. */
async function cpuOf(work: () => Promise<unknown>): Promise<number> {
  await work();
  const times: number[] = [];
  for (let r = 0; r < rounds; r += 1) {
    const before = process.cpuUsage();
    await work();
    const spent = process.cpuUsage(before);
    times.push((spent.user + spent.system) / 1e6);
  }
  return times.sort((a, b) => a - b)[Math.floor(rounds / 2)]!;
}

/** A coupon of 150 x 100 mm with 60 patches in a photograph of 12 MP, as a JPEG file. */
async function largePhotograph(): Promise<{ readonly plan: CouponPlan; readonly jpeg: Uint8Array }> {
  const frame = frameFor({ width: 150e-3, height: 100e-3 }, { coupon: 1 });
  const patches = gridPatches(frame, 10, 6, 8e-3, 4e-3);
  const plate = makePlate({ seed: SEED, frame, patches });
  const { jpeg } = await photograph(plate, { seed: SEED, width: 4000, height: 3000, glare: false });
  const plan = { coupon: 1, label: "1", frame, patches: patches.map((p) => ({ ...p, lineSpacing: 1e-3 })) };
  return { plan, jpeg: jpeg! };
}

export const gradingPieces: readonly Piece[] = [
  {
    id: "grade-photo",
    async measure() {
      const { plan, jpeg } = await largePhotograph();
      const { findMarkers, close } = await openMarkerFinder(markerLibrary());
      const own = await cpuOf(async () => {
        const { photo } = await decodePhoto(jpeg);
        return gradeCoupon(plan, [lookAtPhoto("photo", photo, [plan], findMarkers)]);
      });
      const reference = await cpuOf(() => sharp(jpeg).raw().toBuffer());
      close();
      const against = "decoding the JPEG alone; 12 MP, 60 patches";
      return {
        id: this.id,
        cpu_s: own,
        reference_cpu_s: reference,
        ratio: own / reference,
        target: "<= 2.5 s",
        against,
      };
    },
  },
];
