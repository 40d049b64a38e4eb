import { describe, expect, it } from "vitest";
import {
  answerToWire,
  comparisonToWire,
  parseEnquiry,
  parseOutcome,
  parseSample,
  parseTrial,
  predictionToWire,
  recordToWire,
  sampleToWire,
  surveyToWire,
  transferToWire,
  trialToWire,
  validatePublished,
  windowToWire,
} from "#contract";
import type { Prediction, SetupVerdict, WindowResult } from "#terms";
import { linesOf } from "./lines.ts";
import { setting, shelves, trial } from "./shelves.ts";

const prediction: Prediction = {
  setupId: "pulsed-100",
  setting,
  beam: {
    spotDiameter: 52e-6,
    meanPower: 80,
    pulseEnergy: 0.8e-3,
    peakPower: 7000,
    fluenceMean: 3.77e5,
    fluencePeak: 7.53e5,
    irradiancePeak: 6.6e12,
    dwell: null,
    lineEnergy: 26.7,
    arealDose: 6.7e5,
    pulsePitch: 30e-6,
    pulseOverlap: 0.42,
    lineOverlap: 0.23,
    eventsPerPoint: 5,
    areaRateIdeal: 6e-5,
    onTime: 100e-9,
    energyLimited: false,
  },
  residueFraction: { low: 0, median: 0.01, high: 0.2 },
  metalPeakTemperature: { low: 500, median: 700, high: 900 },
  meltDepth: { low: 0, median: 0, high: 1e-6 },
  metalCondition: 1,
  metalConditionShares: [0.2, 0.7, 0.1, 0, 0],
  probabilityClean: 0.9,
  probabilityUndamaged: 0.8,
  probabilityBoth: 0.7,
  cleanScore: 1,
  undamagedScore: 1,
  areaRate: 5e-5,
  draws: [],
  caveats: ["a caveat"],
  sources: ["practice"],
  modelVersion: "m1",
};
const verdict: SetupVerdict = {
  setupId: "pulsed-100",
  setupName: "pulsed",
  kind: "pulsed",
  windowExists: true,
  best: prediction,
  bar: {
    axis: "fluence",
    removalEdge: { low: 1e4, median: 2e4, high: 3e4 },
    damageEdge: null,
    reachLow: 1e3,
    reachHigh: 1e6,
    best: 5e4,
  },
  shortfall: "none",
  reason: "cleans",
  areaRate: 5e-5,
  sureness: 0.7,
  meanPower: 80,
  delivery: "scanner",
};
const window: WindowResult = {
  recommended: {
    setting,
    probabilityClean: 0.93,
    probabilityUndamaged: 0.94,
    probabilityBoth: 0.9,
    probabilityBothLow: 0.8,
    probabilityBothHigh: 0.95,
    margin: { logDose: 0.2, powerPercent: 22, nearestEdge: "undamaged" },
    areaRate: 5e-5,
    repeats: 3,
    repeatsGood: 3,
    proven: true,
    words: [],
  },
  next: [{ setting, probabilityClean: 0.5, probabilityUndamaged: 0.5, reason: "near the edge" }],
  map: null,
  diagnostics: {
    patches: 12,
    clean: 6,
    damaged: 2,
    rHat: Number.POSITIVE_INFINITY,
    effectiveSampleSize: 500,
    brierClean: 0.1,
    brierUndamaged: Number.NaN,
    priorMatters: "no",
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
    ],
    properties: [],
    shifts: [],
    words: [],
  },
  words: [],
  caveats: [],
};
const cautionsOf = (id: string) => [`caution for ${id}`];

describe("outputs", () => {
  it("of a prediction have the published names and units", () => {
    const wire = predictionToWire(prediction, ["caution"]);
    expect(validatePublished("prediction", wire, "prediction")).toEqual(wire);
    expect(wire).toMatchObject({
      laser: "pulsed-100",
      residueFraction: 0.01,
      metalPeakTemperature_K: 700,
      meltDepth_um: 0,
      metalCondition: 1,
      areaRate_m2_per_h: 0.18,
      fluencePeak_J_per_cm2: 75.3,
      irradiancePeak_W_per_cm2: 6.6e8,
      dwell_s: null,
      lineEnergy_J_per_m: 26.7,
      pulseOverlap: 0.42,
      lineOverlap: 0.23,
      meanPower_W: 80,
      probabilityClean: 0.9,
      probabilityUndamaged: 0.8,
      caveats: ["a caveat"],
      sources: ["practice"],
      cautions: ["caution"],
      spreads: { meltDepth_um: { low: 0, median: 0, high: 1 } },
    });
  });

  it("of survey and comparison carry the cautions of every set-up that they show a setting for", () => {
    const survey = surveyToWire(
      "part-1",
      [verdict, { ...verdict, setupId: "pulsed-50", best: null }],
      cautionsOf,
      "m1",
    );
    expect(validatePublished("survey", survey, "survey")).toEqual(survey);
    expect(survey.cautions).toEqual(["caution for pulsed-100"]);
    expect(survey.verdicts[0]?.best?.cautions).toEqual(["caution for pulsed-100"]);
    expect(survey.verdicts[0]?.bar).toEqual({
      axis: "fluence",
      removalEdge_J_per_cm2: { low: 1, median: 2, high: 3 },
      damageEdge_J_per_cm2: null,
      reachLow_J_per_cm2: 0.1,
      reachHigh_J_per_cm2: 100,
      best_J_per_cm2: 5,
    });
    const comparison = comparisonToWire(
      {
        equalPower: { meanPower: 80, pulsed: verdict, continuous: null, sentence: "a" },
        eachAtBest: { pulsed: verdict, continuous: null, sentence: "b" },
        equal: [],
        unequal: ["spot"],
      },
      cautionsOf,
    );
    expect(validatePublished("comparison", comparison, "comparison")).toEqual(comparison);
  });

  it("of a window have null where a number has no meaning, never NaN", () => {
    const wire = windowToWire(window, { laser: "pulsed-100", trial: "trial-1", modelVersion: "m1" }, ["c"]);
    expect(validatePublished("window", JSON.parse(JSON.stringify(wire)), "window")).toEqual(wire);
    expect(wire.recommended?.margin).toEqual({ logDose: 0.2, power_percent: 22, nearestEdge: "undamaged" });
    expect(wire.diagnostics.rHat).toBeNull();
    expect(wire.diagnostics.brierUndamaged).toBeNull();
  });

  it("of a window say whether the trial may end and what was learnt, without the dirt of binary fractions", () => {
    const about = { laser: "pulsed-100", trial: "trial-1", modelVersion: "m1" };
    const learnt = {
      ...window.learnt,
      properties: [
        { ...window.learnt.pinned[0]!, name: "layer:alkyd:white:absorption", unit: "", spreadLeft: Number.NaN },
      ],
      words: ["settled"],
    };
    const stop = { ...window.stop, verdict: "nothing found" as const, expectedGain: null, bestShare: 0.1 + 0.2 };
    const wire = windowToWire({ ...window, stop, learnt }, about, ["c"]);
    expect(validatePublished("window", JSON.parse(JSON.stringify(wire)), "window")).toEqual(wire);
    expect(wire.stop).toEqual({ verdict: "nothing found", expectedGain: null, bestShare: 0.3, words: stop.words });
    expect(wire.learnt?.pinned).toEqual(window.learnt.pinned);
    expect(wire.learnt?.properties[0]).toMatchObject({ name: "layer:alkyd:white:absorption", spreadLeft: null });
    expect(wire.learnt?.words).toEqual(["settled"]);
    const { stop: _stop, learnt: _learnt, ...earlier } = wire;
    expect(validatePublished("window", earlier, "window")).toEqual(earlier);
  });

  it("of a transfer have rate and share with a setting, and null for both without one", () => {
    const carried = {
      trial: "trial-1",
      from: "pulsed-100",
      laser: "pulsed-50",
      lens: null,
      setting,
      areaRate: 5e-5,
      share: 0.1 + 0.7,
      verification: window.next,
      words: ["carried"],
      caveats: [],
      modelVersion: "m1",
    };
    const wire = transferToWire(carried, ["c"]);
    expect(validatePublished("transfer", JSON.parse(JSON.stringify(wire)), "transfer")).toEqual(wire);
    expect([wire.areaRate_m2_per_h, wire.share, wire.lens]).toEqual([0.18, 0.8, null]);
    expect(wire.setting?.speed_mm_per_s).toBe(3000);
    expect(wire.verification[0]).toMatchObject({ probabilityClean: 0.5, reason: "near the edge" });
    const none = transferToWire({ ...carried, setting: null, areaRate: 0, share: 0, lens: "f160" }, ["c"]);
    expect(validatePublished("transfer", JSON.parse(JSON.stringify(none)), "transfer")).toEqual(none);
    expect([none.setting, none.areaRate_m2_per_h, none.share, none.lens]).toEqual([null, null, null, "f160"]);
  });

  it("of a map have its places in the units of its axes, what is kept under drift, and null where that is not known", () => {
    const map = {
      xName: "speed (mm/s)",
      yName: "level",
      x: [100, 0.1 + 0.2],
      y: [0.5],
      probabilityClean: [0.25, 0.1 + 0.2],
      probabilityUndamaged: [1, 0],
      conservative: [true, false],
      points: [{ patch: 3, x: 0.1 + 0.2, y: 0.5 }],
      recommendedAt: { x: 0.1 + 0.7, y: 0.5 },
    };
    const about = { laser: "pulsed-100", trial: "trial-1", modelVersion: "m1" };
    const wire = windowToWire({ ...window, map }, about, ["c"]);
    expect(validatePublished("window", JSON.parse(JSON.stringify(wire)), "window")).toEqual(wire);
    expect(wire.map).toEqual({
      ...map,
      x: [100, 0.3],
      probabilityClean: [0.25, 0.3],
      points: [{ patch: 3, x: 0.3, y: 0.5 }],
      recommendedAt: { x: 0.8, y: 0.5 },
    });
    const { conservative: _kept, points: _points, recommendedAt: _at, ...bare } = map;
    const without = windowToWire({ ...window, map: bare }, about, ["c"]);
    expect(without.map).toMatchObject({ conservative: null, points: [], recommendedAt: null });
  });

  it("of a whole answer are valid and leave the draws out", () => {
    const enquiry = parseEnquiry({ parts: [{ material: "aluminium-5083", layers: [{ kind: "alkyd" }] }] }, shelves);
    const wire = answerToWire(
      {
        enquiry,
        parts: [
          {
            part: enquiry.parts[0]!,
            triage: { verdict: "likely", reasons: ["thin"] },
            verdicts: [verdict],
            comparison: null,
            advice: [{ measurement: "gauge", spreadRemoved: 0.4, why: "thickness" }],
            trials: [{ trial, outcomes: [parseOutcome({ trial: "trial-1", patch: 1, metalCondition: 0 })], window }],
          },
        ],
        seed: 1,
        drawCount: 64,
        modelVersion: "m1",
      },
      () => cautionsOf,
    );
    expect(validatePublished("answer", JSON.parse(JSON.stringify(wire)), "answer")).toEqual(wire);
    expect(JSON.stringify(wire)).not.toContain('draws"');
    expect(wire.parts[0]?.trials[0]?.trial.cautions).toEqual(["caution for pulsed-100"]);
  });

  it("of a trial come back as the trial", () => {
    const wire = trialToWire(trial, ["c"]);
    expect(wire.patches[0]).toMatchObject({ x_mm: 5, width_mm: 15, setting: { speed_mm_per_s: 3000 } });
    expect(parseTrial(JSON.parse(JSON.stringify(wire)))).toEqual(trial);
    const twice = { ...wire, patches: [wire.patches[0], wire.patches[0]] };
    expect(linesOf(() => parseTrial(twice))).toEqual([
      "invalid patches[1].patch: 1 (must differ from the other patches)",
    ]);
    const lost = { ...wire, patches: [{ ...wire.patches[0], coupon: 2 }] };
    expect(linesOf(() => parseTrial(lost))).toEqual(["invalid patches[0].coupon: 2 (is not one of the coupons)"]);
  });

  it("of a sample come back, and a day that is none is refused", () => {
    const sample = {
      id: "s1",
      enquiry: "e",
      part: "p",
      label: "S1",
      received: "2026-03-31",
      thicknessMap: [{ x_mm: 1, y_mm: 2, thickness_um: 80 }],
    };
    const read = parseSample(sample);
    expect(read.thicknessMap).toEqual([{ x: 1e-3, y: 2e-3, thickness: 80e-6 }]);
    expect(parseSample(sampleToWire(read))).toEqual(read);
    expect(linesOf(() => parseSample({ ...sample, received: "31.3.2026" }))).toEqual([
      "invalid received: 31.3.2026 (must be a date such as 2026-03-31)",
    ]);
  });

  it("of recording count what was kept", () => {
    const wire = recordToWire("trial-1", { accepted: [], refused: [{ line: 3, message: "m" }] });
    expect(validatePublished("record", wire, "record")).toEqual({
      trial: "trial-1",
      accepted: 0,
      refused: [{ line: 3, message: "m" }],
    });
  });
});
