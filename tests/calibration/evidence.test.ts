import { metalReading, residueReading } from "#calibration";
import type { Acceptance, AcceptanceTest, AcceptanceTestKind, Outcome } from "#terms";
import { describe, expect, it } from "vitest";
import { readingUncertainty } from "../../src/calibration/evidence.ts";

const acceptance: Acceptance = {
  residueMax: 0.05,
  metalConditionMax: 1,
  metalTemperatureMax: 500,
  tests: [],
  confidence: 0.8,
};
const nothing: Outcome = {
  trialId: "t",
  patch: 1,
  residueFraction: null,
  residueUncertainty: null,
  metalCondition: null,
  lightness: null,
  roughnessBefore: null,
  roughnessAfter: null,
  thicknessBefore: null,
  thicknessAfter: null,
  temperature: null,
  tests: [],
  grader: "",
  note: "",
};
const test = (kind: AcceptanceTestKind, passed: boolean | null): AcceptanceTest => ({
  kind,
  method: "",
  limit: "",
  value: null,
  passed,
});
const residue = (more: Partial<Outcome>) => residueReading({ ...nothing, ...more }, acceptance);
const metal = (more: Partial<Outcome>, of: Partial<Acceptance> = {}) =>
  metalReading({ ...nothing, ...more }, { ...acceptance, ...of });
const total = (r: readonly number[] | null) => r!.reduce((a, b) => a + b, 0);

describe("what a residue reading means", () => {
  it("adds up to 1 over its classes for any reading, and is surer of clean the less is left", () => {
    let before = 2;
    for (let r = 0; r <= 1; r += 0.01) {
      for (const residueUncertainty of [null, 0, 0.01, 0.2]) {
        const reading = residue({ residueFraction: r, residueUncertainty });
        expect(total(reading)).toBeCloseTo(1, 12);
        expect(Math.min(...reading!)).toBeGreaterThanOrEqual(0);
      }
      const clean = residue({ residueFraction: r })![0];
      expect(clean).toBeLessThanOrEqual(before);
      before = clean;
    }
  });

  it("splits at the accepted residue and at one half, by its uncertainty", () => {
    // Φ((0.05 − 0.02)/0.023) = Φ(1.3043) = 0.9039 with u = 0.02 + 0.15·0.02
    expect(readingUncertainty(0.02)).toBeCloseTo(0.023, 12);
    expect(residue({ residueFraction: 0.02 })![0]).toBeCloseTo(0.9039, 3);
    // stated 0.02: Φ(1.5) = 0.93319
    expect(residue({ residueFraction: 0.02, residueUncertainty: 0.02 })![0]).toBeCloseTo(0.93319, 4);
    // 0.4 ± 0.1: Φ((0.05 − 0.4)/0.1) = 2.3e-4, Φ(1) = 0.84134
    const partly = residue({ residueFraction: 0.4, residueUncertainty: 0.1 })!;
    expect(partly[0]).toBeCloseTo(2.3e-4, 5);
    expect(partly[2]).toBeCloseTo(1 - 0.84134, 4);
  });

  it("takes yes and no, and counts the limit itself as clean", () => {
    expect(residue({ residueFraction: 0 })![0]).toBeGreaterThan(0.99);
    expect(residue({ residueFraction: 1 })![2]).toBeGreaterThan(0.99);
    expect(residue({ residueFraction: 0.05 })![0]).toBeGreaterThanOrEqual(0.5);
    expect(residue({ residueFraction: 0.0501 })![0]).toBeLessThanOrEqual(0.5);
  });

  it("falls back on thickness gauges, held between nothing and all", () => {
    expect(residue({ thicknessBefore: 30e-6, thicknessAfter: 12e-6 })).toEqual(residue({ residueFraction: 0.4 }));
    expect(residue({ thicknessBefore: 30e-6, thicknessAfter: 33e-6 })).toEqual(residue({ residueFraction: 1 }));
    expect(residue({ thicknessBefore: 30e-6, thicknessAfter: -1e-6 })).toEqual(residue({ residueFraction: 0 }));
    expect(residue({ residueFraction: 0, thicknessBefore: 30e-6, thicknessAfter: 30e-6 })![0]).toBeGreaterThan(0.99);
    expect(residue({ thicknessBefore: 0, thicknessAfter: 0 })).toBeNull();
    expect(residue({ thicknessAfter: 1e-6 })).toBeNull();
  });

  it("lets a failed test speak against clean and a passed one for it, neither with certainty", () => {
    const failed = residue({ tests: [test("salts", false)] })!;
    const passed = residue({ tests: [test("pull-off", true)] })!;
    expect(total(failed)).toBeCloseTo(1, 12);
    expect(total(passed)).toBeCloseTo(1, 12);
    // 0.1 to 0.5 and 0.5, and 1 to 0.1 and 0.1
    expect(failed[0]).toBeCloseTo(0.1, 12);
    expect(passed[0]).toBeCloseTo(1 / 1.2, 12);
    const seenClean = residue({ residueFraction: 0.01 })!;
    expect(residue({ residueFraction: 0.01, tests: [test("salts", false)] })![0]).toBeLessThan(seenClean[0]);
    expect(residue({ residueFraction: 0.06, tests: [test("salts", true)] })![0]).toBeGreaterThan(
      residue({ residueFraction: 0.06 })![0],
    );
    // one failed counts for more than another passed
    expect(residue({ tests: [test("salts", false), test("dust", true)] })).toEqual(failed);
  });

  it("is null where nothing was read: no test of another kind, none without a verdict", () => {
    expect(residue({})).toBeNull();
    expect(residue({ tests: [test("hardness", false)] })).toBeNull();
    expect(residue({ tests: [test("salts", null)] })).toBeNull();
  });
});

describe("what a reading of the metal means", () => {
  it("is whole below melting, accepted where melting is, damaged beyond what is accepted", () => {
    expect(metal({ metalCondition: 0 })).toEqual([1, 0, 0]);
    expect(metal({ metalCondition: 1 })).toEqual([1, 0, 0]);
    expect(metal({ metalCondition: 2 })).toEqual([0, 0, 1]);
    expect(metal({ metalCondition: 2 }, { metalConditionMax: 2 })).toEqual([0.5, 1, 0]);
    expect(metal({ metalCondition: 3 }, { metalConditionMax: 2 })).toEqual([0, 0, 1]);
    expect(metal({ metalCondition: 1 }, { metalConditionMax: 0 })).toEqual([0, 0, 1]);
  });

  it("is damaged where it was too hot, whatever the grade", () => {
    expect(metal({ metalCondition: 0, temperature: 501 })).toEqual([0, 0, 1]);
    expect(metal({ temperature: 501 })).toEqual([0, 0, 1]);
    expect(metal({ metalCondition: 0, temperature: 499 })).toEqual([1, 0, 0]);
    expect(metal({ temperature: 499 })).toBeNull();
    expect(metal({ temperature: 900 }, { metalTemperatureMax: null })).toBeNull();
  });

  it("hears tests of the metal that failed, and none of the layer", () => {
    const failed = metal({ tests: [test("hardness", false)] })!;
    expect(total(failed)).toBeCloseTo(1, 12);
    expect(failed[2]).toBeCloseTo(1 / 1.2, 12);
    const graded = metal({ metalCondition: 0, tests: [test("dimension-loss", false)] })!;
    expect(total(graded)).toBeCloseTo(1, 12);
    expect(graded[0]).toBeLessThan(1);
    expect(graded[2]).toBeGreaterThan(0);
    expect(metal({ tests: [test("salts", false)] })).toBeNull();
    expect(metal({})).toBeNull();
  });
});
