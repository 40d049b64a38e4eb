import type { Outcome, PlannedPatch, Trial, WindowMap, WindowResult } from "#terms";
import { pulsedSetting } from "./fixture-verdicts.ts";

const levels = [0.35, 0.5, 0.65, 0.8, 0.9, 1];
const speeds = [1.2, 2.4, 4.8];

const patches: PlannedPatch[] = levels.flatMap((level, column) =>
  [...speeds, null].map((speed, row): PlannedPatch => {
    const patch = 1 + column * 4 + row;
    const reference = speed === null && column >= 4;
    const role = reference ? (column === 4 ? "untouched" : "cleaned-reference") : speed === null ? "replicate" : "test";
    const setting = reference ? null : speed === null ? { ...pulsedSetting } : { ...pulsedSetting, level, speed };
    return {
      patch,
      coupon: 1,
      x: 0.006 + column * 0.0185,
      y: 0.006 + row * 0.0185,
      width: 0.015,
      height: 0.015,
      role,
      setting,
      runOrder: role === "untouched" ? 0 : ((patch * 7) % 23) + 1,
      replicateOf: role === "replicate" ? 18 : null,
      predictedClean: setting === null ? null : 0.8,
      predictedUndamaged: setting === null ? null : 0.9,
    };
  }),
);

export const trial: Trial = {
  id: "T-014",
  enquiryId: "E-001",
  partId: "hatch-covers",
  setupId: "pulsed-200",
  design: "grid around the predicted window",
  seed: 20,
  coupons: [{ coupon: 1, width: 0.12, height: 0.08, label: "A" }],
  patches,
  reasons: [
    "Level and speed span the predicted window from too weak to too strong.",
    "Four repeats of the best predicted setting.",
  ],
  modelVersion: "0.1.0",
};

/** A made-up rule, so that all three marks occur. */
export const outcomes: readonly Outcome[] = patches
  .filter((p) => p.setting !== null && p.patch !== 7)
  .map((p): Outcome => {
    const dose = p.setting!.level / Math.sqrt(p.setting!.speed);
    return {
      trialId: trial.id,
      patch: p.patch,
      residueFraction: dose < 0.42 ? Number((0.42 - dose + 0.03).toFixed(3)) : 0.004,
      residueUncertainty: 0.005,
      metalCondition: dose > 0.8 ? 2 : 0,
      lightness: 71.2,
      roughnessBefore: 1.1e-6,
      roughnessAfter: 1.3e-6,
      thicknessBefore: 9.8e-5,
      thicknessAfter: null,
      temperature: null,
      tests: [],
      grader: "bench",
      note: "",
    };
  });

const nodes = (low: number, high: number, count: number): number[] =>
  Array.from({ length: count }, (_, k) => low * (high / low) ** (k / (count - 1)));
const x = nodes(0.6, 6, 31);
const y = nodes(0.3, 1, 25);
const sigmoid = (t: number): number => 1 / (1 + Math.exp(-t));
const grid = (f: (speed: number, level: number) => number): number[] =>
  y.flatMap((level) => x.map((speed) => f(speed, level)));

export const map: WindowMap = {
  xName: "speed (m/s)",
  yName: "level",
  x,
  y,
  probabilityClean: grid((speed, level) => sigmoid(14 * Math.log(level / Math.sqrt(speed) / 0.42))),
  probabilityUndamaged: grid((speed, level) => sigmoid(-16 * Math.log(level / Math.sqrt(speed) / 0.8))),
  // invented: a band between the edges
  conservative: y.flatMap((level) => x.map((speed) => Math.abs(Math.log(level / Math.sqrt(speed) / 0.58)) < 0.1)),
};

export const windowResult: WindowResult = {
  recommended: {
    setting: pulsedSetting,
    probabilityClean: 0.95,
    probabilityUndamaged: 0.95,
    probabilityBoth: 0.93,
    probabilityBothLow: 0.81,
    probabilityBothHigh: 0.95,
    margin: { logDose: 0.18, powerPercent: 16, nearestEdge: "clean" },
    areaRate: 5.2e-5,
    repeats: 5,
    repeatsGood: 5,
    proven: true,
    words: ["Burned 5 times, 5 clean and undamaged: that alone shows failure below 45 %."],
  },
  next: [
    {
      setting: { ...pulsedSetting, speed: 3 },
      probabilityClean: 0.8,
      probabilityUndamaged: 0.95,
      reason: "A faster setting may hold.",
    },
  ],
  map,
  diagnostics: {
    patches: 21,
    clean: 12,
    damaged: 3,
    rHat: 1.004,
    effectiveSampleSize: 812,
    brierClean: 0.06,
    brierUndamaged: 0.05,
    priorMatters: "little",
  },
  stop: {
    verdict: "go on",
    expectedGain: 0.12,
    bestShare: 0.9,
    words: ["A faster setting may exist: expected gain 12 %."],
  },
  learnt: {
    pinned: [
      {
        name: "peak fluence from which the layer is off",
        unit: "J/cm²",
        prior: { low: 1, median: 2, high: 4 },
        posterior: { low: 1.8, median: 2.1, high: 2.4 },
        spreadLeft: 0.2,
      },
      {
        name: "damage edge over removal edge",
        unit: "",
        prior: { low: 1.1, median: 1.9, high: 3.3 },
        posterior: { low: 1.12, median: 1.85, high: 3.2 },
        spreadLeft: 1.02,
      },
    ],
    properties: [],
    shifts: [],
    words: ["Seen against what these versions of the physics expect: clean 12 (9 to 14), damaged 3 (1 to 5)."],
  },
  words: ["Clean needs level over root speed above 0.42."],
  caveats: [
    "Coupons were flat; the rims were not tried.",
    "Chances are for production under the drift stated; scatter from coupon to coupon is kept apart and is not in them.",
  ],
};
