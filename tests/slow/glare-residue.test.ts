import { beforeAll, describe, expect, it } from "vitest";
import { type FindMarkers, gradeCoupon, lookAtPhoto } from "#grading";
import type { CoatKind, MetalKind } from "../photo/colours.ts";
import { innerTruth } from "../photo/inner-truth.ts";
import type { Plate } from "../photo/plate.ts";
import { smallPlan, take } from "../grading/bad-photos/bench-coupon.ts";
import { openFinder } from "../grading/geometry/setup-frame.ts";

let findMarkers: FindMarkers;
beforeAll(async () => {
  findMarkers = (await openFinder()).findMarkers;
});

const plan = smallPlan(3);
/** Standard deviations of a 90 % interval. */
const ninety = 1.645;

/** Readings of a plate from photographs with the plate turned by quarters between them, and the plate itself. */
async function readings(
  spec: { readonly seed: number; readonly metal: MetalKind; readonly coat: CoatKind },
  turns: readonly (0 | 1 | 2 | 3)[],
  glare: boolean,
) {
  const looks = [];
  let plate: Plate | null = null;
  for (const turn of turns) {
    const shot = { seed: spec.seed, turn, glare, width: 840, height: 630, say: { tilt: 0.25 } };
    const taken = await take(plan, shot, spec);
    plate = taken.plate;
    looks.push(lookAtPhoto(`turn ${turn}`, taken.photo, [plan], findMarkers));
  }
  return { plate: plate!, read: gradeCoupon(plan, looks).readings };
}

describe("four photographs with glare", () => {
  it.each([
    ["black", "steel", 4021],
    ["blue", "stainless", 4022],
    ["white", "steel", 4023],
  ] as const)(
    "never lower the residue of a %s coat on %s beyond what is stated",
    async (coat, metal, seed) => {
      const spec = { seed, metal, coat };
      const bright = await readings(spec, [0, 1, 2, 3], true);
      const dull = await readings(spec, [0], false);
      expect(bright.read.some(({ photo }) => photo !== bright.read[2]!.photo)).toBe(true);
      const below = { bright: 0, dull: 0 };
      plan.patches.forEach(({ role }, k) => {
        if (role !== "test") return;
        const { residue: truth } = innerTruth(bright.plate, k);
        const [inGlare, without] = [bright.read[k]!.residue!, dull.read[k]!.residue!];
        const stated = Math.hypot(inGlare.uncertainty, without.uncertainty);
        expect(without.value - inGlare.value).toBeLessThan(ninety * stated);
        expect(truth - inGlare.value).toBeLessThan(4 * inGlare.uncertainty);
        if (truth - inGlare.value > ninety * inGlare.uncertainty) below.bright += 1;
        if (truth - without.value > ninety * without.uncertainty) below.dull += 1;
      });
      // What lies below the truth in glare lies below it without as well: one more of ten may be chance.
      expect(below.bright).toBeLessThanOrEqual(below.dull + 1);
    },
    60_000,
  );
});
