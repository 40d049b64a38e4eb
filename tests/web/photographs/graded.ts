import { gradingToWire, type GradingWire } from "#contract";
import {
  couponPlan,
  type GradedCoupon,
  type GradedPatch,
  outcomeFromReading,
  type PatchReading,
  patchVerdict,
} from "#grading";
import type { Trial } from "#terms";

/** 24 patches of 10 mm on a plate of 150 × 100 mm; the first is untouched, the last a cleaned reference. */
export const trial: Trial = {
  id: "hatch-trial",
  enquiryId: "yard",
  partId: "hatch-covers",
  setupId: "pulsed-500",
  design: "grid",
  seed: 1,
  coupons: [{ coupon: 1, width: 0.15, height: 0.1, label: "1" }],
  patches: Array.from({ length: 24 }, (_, k) => ({
    patch: k + 1,
    coupon: 1,
    x: 0.02 + 0.02 * (k % 6),
    y: 0.075 - 0.02 * Math.floor(k / 6),
    width: 0.01,
    height: 0.01,
    role: k === 0 ? "untouched" : k === 23 ? "cleaned-reference" : "test",
    setting: null,
    runOrder: k,
    replicateOf: null,
    predictedClean: null,
    predictedUndamaged: null,
  })),
  reasons: [],
  modelVersion: "test",
};
const limits = { residueMax: 0.05, metalConditionMax: 1 } as const;
export const hash = (letter: string): string => letter.repeat(64);

/** An invented reading. residue: share, null where it is not settled. */
export function reading(patch: number, residue: number | null, change: Partial<PatchReading> = {}): PatchReading {
  const lab = { L: 78, a: 0, b: 2 };
  return {
    patch,
    photo: "a.jpg",
    refusals: residue === null ? [{ gate: "difference", sentence: "They look alike." }] : [],
    flags: [],
    residue:
      residue === null
        ? null
        : {
            value: residue,
            uncertainty: 0.01,
            coverage: residue,
            contrast: residue + 0.01,
            unmixed: residue,
            gap: 0.01,
            detectionLimit: 0.03,
          },
    lab,
    lightness: { value: 78, uncertainty: 0.5 },
    absolute: false,
    melt: { index: { value: 0.07, uncertainty: 0.002 }, below: 0.05, brightShare: 0.001 },
    referenceMelt: 0.07,
    tint: {
      lab,
      difference: { value: 0.8, uncertainty: 0.3 },
      discoloured: 0.01,
      towardsCoat: 0,
    } as PatchReading["tint"],
    raggedness: null,
    streaks: null,
    photoSpread: 0.3,
    ...change,
  };
}

/** Its coupon, graded from readings by patch; patches not named read 1 %. */
export function gradedCoupon(own: Readonly<Record<number, PatchReading>> = {}): GradedCoupon {
  const plan = couponPlan(trial, 1);
  const patches = plan.patches.map(({ patch, role }): GradedPatch => {
    const one = own[patch] ?? reading(patch, 0.01);
    const reference = role === "untouched" || role === "cleaned-reference";
    const read = reference ? null : outcomeFromReading(one, trial.id);
    const says = read !== null && (read.outcome.residueFraction !== null || read.outcome.metalCondition !== null);
    return {
      patch,
      role,
      verdict: patchVerdict(one, limits.residueMax),
      reading: one,
      read,
      ruling: null,
      outcome: says ? read.outcome : null,
    };
  });
  const looks = ["a.jpg", "b.jpg"].map((photo) => ({
    photo,
    coupon: 1,
    gates: [],
    frame: null,
    map: null,
    patches: patches.length,
  }));
  return { coupon: 1, trialId: trial.id, plan, limits, looks, difference: 40, notes: [], patches };
}

export const wireOf = (graded: GradedCoupon): GradingWire =>
  gradingToWire(graded, {
    enquiryId: trial.enquiryId,
    printScale: 1,
    cautions: ["Class 4 laser."],
    sha256: (name) => hash(name.slice(0, 1)),
  });
