import { beforeAll, describe, expect, it } from "vitest";
import {
  type CouponPlan,
  type CouponPatch,
  couponInPhoto,
  type FindMarkers,
  frameFor,
  gradeCoupon,
  gradeTrialCoupon,
  lookAtPhoto,
  type Photo,
  type PhotoLook,
  rectifiedCoupon,
  scaled,
  withRulings,
} from "#grading";
import { openMarkerFinder } from "#markers";
import { decodePhoto, markerLibrary } from "#photos";
import { gridPatches } from "../photo/grid-patches.ts";
import { photograph, type ShotTruth } from "../photo/photograph.ts";
import { makePlate } from "../photo/plate.ts";

const size = { width: 90e-3, height: 70e-3 };
const planOf = (coupon: number): CouponPlan => {
  const frame = frameFor(size, { coupon });
  const patches = gridPatches(frame, 4, 3, 8e-3, 5e-3).map((p): CouponPatch => ({ ...p, lineSpacing: 1.2e-3 }));
  return { coupon, label: `${coupon} of 2`, frame, patches };
};
const plans = [planOf(1), planOf(2)];
const limits = { residueMax: 0.05, metalConditionMax: 1 as const };
const said: Record<number, { residue: number; melt: number; haze: number; film: number; stripes: null }> = {};
for (const [k, residue] of [0, 0.6, 0.3, 0.12, 1, 0, 0, 0.02, 0, 0.8].entries())
  said[k + 3] = { residue, melt: 0, haze: 0, film: 1, stripes: null };

let find: FindMarkers;
let photos: { photo: Photo; truth: ShotTruth }[];
let looks: PhotoLook[];

async function shoot(plan: CouponPlan, turn: 0 | 1, width = 1100): Promise<{ photo: Photo; truth: ShotTruth }> {
  const plate = makePlate({
    seed: 71,
    frame: plan.frame,
    patches: plan.patches,
    metal: "steel",
    coat: "blue",
    sayPatch: said,
  });
  const shot = await photograph(plate, {
    seed: 71,
    turn,
    width,
    height: 0.75 * width,
    glare: false,
    say: { covered: null, tilt: 0.2 },
  });
  return { photo: (await decodePhoto(shot.jpeg!)).photo, truth: shot.truth };
}

beforeAll(async () => {
  find = (await openMarkerFinder(markerLibrary())).findMarkers;
  photos = [await shoot(plans[1]!, 0), await shoot(plans[1]!, 1)];
  looks = photos.map(({ photo }, k) => lookAtPhoto(`photo ${k}`, photo, plans, find));
}, 60_000);

describe("a coupon from photographs", () => {
  it("is known by its markers, placed and lit", () => {
    expect(photos.map(({ photo }) => couponInPhoto(photo, plans, find))).toEqual([2, 2]);
    for (const [k, look] of looks.entries()) {
      expect(look.gates).toEqual([]);
      expect(look.coupon).toBe(2);
      expect([...look.shots.keys()]).toEqual(plans[1]!.patches.map((p) => p.patch));
      const at = look.map!.toPixel(45e-3, 35e-3);
      const true_ = photos[k]!.truth.toPixel(45e-3, 35e-3);
      expect(Math.hypot(at.u - true_.u, at.v - true_.v) / photos[k]!.truth.scale).toBeLessThan(0.1);
    }
  });

  it("reads every patch, references too, near what was painted", () => {
    const { readings, notes, difference } = gradeCoupon(plans[1]!, looks);
    expect(readings).toHaveLength(12);
    expect(notes).toEqual([]);
    expect(difference).toBeGreaterThan(20);
    for (const { patch, residue, refusals } of readings) {
      expect(refusals).toEqual([]);
      if (patch > 2)
        expect(Math.abs(residue!.value - said[patch]!.residue)).toBeLessThan(0.05 + 2 * residue!.uncertainty);
    }
  });

  it("gives outcomes of tests only, with verdicts, and keeps a ruling beside the reading", () => {
    const graded = gradeTrialCoupon({ id: "t" }, plans[1]!, looks, limits, { unseen: [] });
    expect(graded.patches.filter((p) => p.read === null).map((p) => p.role)).toEqual([
      "untouched",
      "cleaned-reference",
    ]);
    expect(graded.patches[3]!.verdict).toBe("residue");
    expect(graded.patches[7]!.verdict).toBe("clean");
    const ruled = withRulings(graded, [
      { patch: 4, grader: "Kim", residueFraction: 0.01, metalCondition: null, note: "dust, wiped off" },
      { patch: 8, grader: "Kim", residueFraction: null, metalCondition: null, note: "" },
    ]);
    const [four, eight] = [ruled.patches[3]!, ruled.patches[7]!];
    expect(four).toMatchObject({ verdict: "clean", outcome: { residueFraction: 0.01, grader: "photographs" } });
    expect(four.reading).toBe(graded.patches[3]!.reading);
    expect(four.read!.outcome.residueFraction).toBeGreaterThan(0.5);
    expect(eight.outcome!.note).toMatch(/^Accepted by Kim\./);
    expect(() =>
      withRulings(graded, [{ patch: 1, grader: "Kim", residueFraction: 0, metalCondition: null, note: "" }]),
    ).toThrow("invalid patch: 1 (is a reference");
    expect(() =>
      withRulings(graded, [{ patch: 99, grader: "Kim", residueFraction: 0, metalCondition: null, note: "" }]),
    ).toThrow("invalid patch: 99 (is not on coupon 2)");
  });

  it("settles nothing where the layer does not show in photographs, and never says clean", () => {
    const graded = gradeTrialCoupon({ id: "t" }, plans[1]!, looks, limits, { unseen: ["Oil does not show."] });
    for (const patch of graded.patches) {
      expect(patch.verdict).toBe("not settled");
      expect(patch.reading.refusals[0]).toEqual({ gate: "film", sentence: "Oil does not show." });
      expect(patch.outcome?.residueFraction ?? null).toBeNull();
    }
  });

  it("settles nothing without a cleaned reference, nor a patch that no photograph shows", () => {
    const blind = {
      ...plans[1]!,
      patches: plans[1]!.patches.map((p) => ({
        ...p,
        role: p.role === "cleaned-reference" ? ("test" as const) : p.role,
      })),
    };
    const { readings, notes } = gradeCoupon(blind, looks);
    expect(notes[0]!.gate).toBe("reference");
    expect(readings.every((r) => r.residue === null && r.refusals.length > 0)).toBe(true);
    const fewer = looks.map((look) => ({ ...look, shots: new Map([...look.shots].filter(([patch]) => patch !== 6)) }));
    const six = gradeCoupon(plans[1]!, fewer).readings[5]!;
    expect(six.residue).toBeNull();
    expect(six.refusals[0]!.gate).toBe("out of sight");
  });

  it("says where lines lie closer than the photographs tell", () => {
    const fine = {
      ...plans[1]!,
      patches: plans[1]!.patches.map((p) => ({ ...p, lineSpacing: p.patch > 4 ? 5e-5 : null })),
    };
    const { notes } = gradeCoupon(fine, looks);
    expect(notes).toHaveLength(1);
    expect(notes[0]!.sentence).toMatch(/^Lines 0\.05 mm apart do not show .*patches 5-12\)/);
  });

  it("refuses a coupon of another trial's numbers, naming them", () => {
    const look = lookAtPhoto("a", photos[0]!.photo, [planOf(5)], find);
    expect(look.coupon).toBeNull();
    expect(look.gates.map((g) => g.gate)).toEqual(["other plan"]);
    expect(look.gates[0]!.sentence).toContain("8, 9, 10");
  });

  it("reads a close-up of a part: the patches in it, at its own scale, and streaks from it", async () => {
    const { photo } = await shoot(plans[1]!, 0, 1500);
    const part = crop(photo, 0.62);
    const look = lookAtPhoto("near", part, plans, find);
    expect(look.gates).toEqual([]);
    expect(look.shots.size).toBeGreaterThan(4);
    expect(look.shots.size).toBeLessThan(12);
    const { readings } = gradeCoupon(plans[1]!, [...looks, look]);
    const [near, far] = [gradeCoupon(plans[1]!, looks).readings, readings];
    const patch = [...look.shots.keys()].at(-1)!;
    const finest = (all: typeof readings) => all.find((r) => r.patch === patch)!.streaks!.finest;
    expect(finest(far)).toBeLessThan(0.85 * finest(near));
  }, 30_000);

  it("takes the print scale into account: a sheet printed small reads the same", () => {
    const frame = scaled(plans[1]!.frame, 0.98);
    // The photograph is of a sheet at 100 %: read as one at 98 % it would be off at the edge by a per cent of the frame.
    const wrong = lookAtPhoto("a", photos[0]!.photo, [{ ...plans[1]!, frame }], find);
    const at = wrong.frame!.pose.toPixel(0, 0);
    const right = photos[0]!.truth.toPixel(0, 0);
    expect(Math.hypot(at.u - right.u, at.v - right.v) / photos[0]!.truth.scale).toBeGreaterThan(0.7);
  });

  it("is laid flat for a person to look at", () => {
    const flat = rectifiedCoupon(photos[0]!.photo, looks[0]!.map!, plans[1]!.frame, 5);
    expect([flat.width, flat.height]).toEqual([450, 350]);
    const { x, y, width, height } = plans[1]!.patches[1]!;
    const pixel = 3 * (Math.round(350 - 5e3 * (y + height / 2)) * 450 + Math.round(5e3 * (x + width / 2)));
    const coat = 3 * (5 * 450 + 5);
    // bare steel is grey and lighter, the coat blue
    expect(flat.rgb[pixel]! - flat.rgb[coat]!).toBeGreaterThan(20);
    expect(flat.rgb[coat + 2]! - flat.rgb[coat]!).toBeGreaterThan(20);
  });
});

/** The left part of a photograph. */
function crop(photo: Photo, share: number): Photo {
  const width = Math.round(share * photo.width);
  const rgb = new Uint8Array(3 * width * photo.height);
  for (let row = 0; row < photo.height; row += 1)
    rgb.set(photo.rgb.subarray(3 * row * photo.width, 3 * (row * photo.width + width)), 3 * row * width);
  return { ...photo, width, rgb };
}
