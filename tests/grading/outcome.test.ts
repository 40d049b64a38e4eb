import { describe, expect, it } from "vitest";
import { betaIncomplete, createRandom, mean } from "#numerics";
import {
  acceptReading,
  type CouponReferences,
  detectionLimit,
  meltIndexOf,
  outcomeFromReading,
  overruleReading,
  type PatchReading,
  patchVerdict,
  readPatch,
  referenceOf,
  type Residue,
  wrongReadings,
} from "#grading";
import { type FakePatch, fakePatch, pairs } from "./simulated/patch.ts";

const face = { size: 8, pixelsPerMm: 5, brushed: 0.05 };
function read(
  pair: number,
  fake: Partial<FakePatch>,
  seed: number,
  more: Partial<CouponReferences> = {},
): PatchReading {
  const random = createRandom(seed);
  const of = { ...pairs[pair]!, ...face };
  const bareView = fakePatch({ ...of, share: 0 }, random).view;
  const [bare, coat] = [referenceOf(bareView), referenceOf(fakePatch({ ...of, share: 1 }, random).view)];
  const references = { bare, coat, bareMelt: meltIndexOf(bareView, { bare, coat }), absolute: true, ...more };
  const { view } = fakePatch({ ...of, share: 0.1, ...fake }, random);
  const shots = ["a", "b"].map((photo) => ({ photo, view, clippedShare: 0, ringResidual: 0, lightUncertainty: 0.01 }));
  return readPatch(5, shots, references);
}
const residue = (value: number, uncertainty: number, limit = detectionLimit(0)): Pick<PatchReading, "residue"> => ({
  residue: { value, uncertainty, detectionLimit: limit } as Residue,
});

describe("verdict", () => {
  it("is clean or residue only where the whole interval says so, and never clean below what a photograph detects", () => {
    expect(patchVerdict(residue(0.01, 0.01), 0.05)).toBe("clean");
    expect(patchVerdict(residue(0.04, 0.01), 0.05)).toBe("near the limit");
    expect(patchVerdict(residue(0.2, 0.03), 0.05)).toBe("residue");
    expect(patchVerdict(residue(0, 0.006), 0.01)).toBe("not settled");
    expect(patchVerdict(residue(0, 0.006), 0)).toBe("not settled");
    expect(patchVerdict(residue(0.2, 0.03), 0.01)).toBe("residue");
    expect(patchVerdict({ residue: null }, 0.5)).toBe("not settled");
    expect(() => patchVerdict(residue(0, 0), 2)).toThrow("invalid largest residue: 2");
  });
});

describe("outcome of a reading", () => {
  it("carries residue, uncertainty, lightness, and names the photograph and the limit", () => {
    const { outcome, reading } = outcomeFromReading(read(0, { share: 0.3 }, 3), "t-1");
    expect(outcome).toMatchObject({ trialId: "t-1", patch: 5, grader: "photographs", metalCondition: 0 });
    expect(Math.abs(outcome.residueFraction! - 0.3)).toBeLessThan(0.05);
    expect(outcome.residueUncertainty).toBe(reading.residue!.uncertainty);
    expect(outcome.lightness).toBeCloseTo(reading.lab!.L, 10);
    expect(outcome.note).toMatch(/^Photograph a: residue (29|3\d) % ± /);
    expect(outcome.note).toContain("would not show");
    expect(outcome.note).not.toMatch(/NaN|null|undefined/);
  });

  it("holds nothing seen no better than half of the detection limit", () => {
    const { outcome, reading } = outcomeFromReading(read(0, { share: 0 }, 3), "t-1");
    expect(reading.residue!.value).toBeLessThan(0.01);
    expect(outcome.residueUncertainty).toBeCloseTo(reading.residue!.detectionLimit / 2, 12);
  });

  it("keeps L* to itself where the greys were not measured, and says so", () => {
    const { outcome } = outcomeFromReading(read(0, {}, 3, { absolute: false }), "t-1");
    expect(outcome.lightness).toBeNull();
    expect(outcome.note).toContain("Lightness is relative");
  });

  it("leaves an unsettled residue empty, with the reason", () => {
    const alike = read(0, {}, 3);
    const { coat } = { coat: referenceOf(fakePatch({ ...pairs[0], ...face, share: 0 }, createRandom(1)).view) };
    const { outcome } = outcomeFromReading(read(0, {}, 3, { coat, bare: coat }), "t-1");
    expect(alike.residue).not.toBeNull();
    expect(outcome.residueFraction).toBeNull();
    expect(outcome.residueUncertainty).toBeNull();
    expect(outcome.note).toContain("not settled");
    expect(outcome.note).not.toContain("clean");
  });
});

describe("metal condition suggested", () => {
  const kinds = [
    [0, {}],
    [1, { tint: [1, 0.93, 0.75] }],
    [2, { melted: 0.045, glint: 0.6 }],
    [3, { melted: 0.25, glint: 0.6 }],
  ] as const;
  const suggested = kinds.flatMap(([grade, fake]) =>
    Array.from({ length: 10 }, (_, i) => {
      const { condition, outcome } = outcomeFromReading(read([0, 2, 3, 4, 5][i % 5]!, fake, 100 * grade + i), "t");
      return { grade, condition: condition!, outcome };
    }),
  );

  it("is right in nine of ten simulated patches, with chances that add up to 1 and none of distorted", () => {
    for (const { condition } of suggested) {
      expect(condition.chances.reduce((sum, c) => sum + c, 0)).toBeCloseTo(1, 12);
      expect(condition.chances[4]).toBe(0);
    }
    expect(mean(suggested.map((s) => (s.condition.grade === s.grade ? 1 : 0)))).toBeGreaterThanOrEqual(0.9);
  });

  it("enters the outcome where it is likely, and is then rarely wrong", () => {
    const entered = suggested.filter((s) => s.outcome.metalCondition !== null);
    expect(entered.length).toBeGreaterThan(0.75 * suggested.length);
    expect(mean(entered.map((s) => (s.outcome.metalCondition === s.grade ? 1 : 0)))).toBeGreaterThan(0.9);
  });

  it("says nothing where no metal shows", () => {
    const { condition, outcome } = outcomeFromReading(read(0, { share: 1 }, 3), "t");
    expect(condition).toBeNull();
    expect(outcome.metalCondition).toBeNull();
    expect(outcome.residueFraction).toBeGreaterThan(0.95);
  });
});

describe("readings overruled", () => {
  const photo = outcomeFromReading(read(0, { share: 0.3 }, 3), "t-1");

  it("keep what was read beside what was said", () => {
    const judged = overruleReading(photo, { grader: "J", residueFraction: 0.02, metalCondition: null, note: "shine" });
    expect(judged.outcome).toMatchObject({ residueFraction: 0.02, metalCondition: 0, grader: "photographs" });
    expect(judged.outcome.note).toMatch(/^Overruled by J: shine\. Photograph a: /);
    expect(judged.outcome.residueUncertainty).toBeCloseTo(0.02 + 0.08 * Math.sqrt(0.02 * 0.98), 12);
    expect(judged.outcome.note).toMatch(/^Overruled by J: shine\. Photograph a: residue (29|3)/);
    expect(judged.read.outcome.residueFraction).toBe(photo.outcome.residueFraction);
    expect(acceptReading(photo, "J").outcome).toEqual({
      ...photo.outcome,
      note: `Accepted by J. ${photo.outcome.note}`,
    });
    expect(() =>
      overruleReading(photo, { grader: "J", residueFraction: null, metalCondition: null, note: "" }),
    ).toThrow("invalid ruling");
    expect(() => overruleReading(photo, { grader: "J", residueFraction: 1.2, metalCondition: null, note: "" })).toThrow(
      "invalid residue: 1.2",
    );
  });

  it("teach the share of wrong readings: only those that turn the patch to the other side", () => {
    const accepted = Array.from({ length: 37 }, () => acceptReading(photo, "J"));
    const rule = (residueFraction: number | null, metalCondition: 0 | 1 | 2 | null) =>
      overruleReading(photo, { grader: "J", residueFraction, metalCondition, note: "" });
    const same = rule(0.25, 1);
    const turned = [rule(0.01, null), rule(null, 2)];
    const learnt = wrongReadings([{ seen: [...accepted, same, ...turned], residueMax: 0.05, metalConditionMax: 1 }]);
    expect(learnt).toMatchObject({ looked: 40, wrong: 2 });
    expect(learnt.rate).toBeCloseTo(2.5 / 60, 12);
    expect(betaIncomplete(2.5, 57.5, learnt.low)).toBeCloseTo(0.05, 9);
    expect(betaIncomplete(2.5, 57.5, learnt.high)).toBeCloseTo(0.95, 9);
    const none = wrongReadings([{ seen: [], residueMax: 0.05, metalConditionMax: 1 }]);
    expect(none.rate).toBeCloseTo(0.025, 12);
    expect(none.high).toBeGreaterThan(0.08);
    // a reading that was refused teaches nothing of wrong ones
    const refused = { ...photo, outcome: { ...photo.outcome, residueFraction: null, metalCondition: null } };
    expect(
      wrongReadings([{ seen: [overruleReading(refused, turned[0]!.ruling!)], residueMax: 0.05, metalConditionMax: 1 }])
        .looked,
    ).toBe(0);
  });

  it("finds a rate of a tenth again, in its interval nine times of ten", () => {
    let inside = 0;
    for (let t = 0; t < 60; t += 1) {
      const random = createRandom(60 + t);
      const judged = Array.from({ length: 200 }, () =>
        random.next() < 0.1
          ? overruleReading(photo, { grader: "J", residueFraction: 0, metalCondition: null, note: "" })
          : acceptReading(photo, "J"),
      );
      const { low, high } = wrongReadings([{ seen: judged, residueMax: 0.05, metalConditionMax: 1 }]);
      if (low <= 0.1 && 0.1 <= high) inside += 1;
    }
    expect(inside).toBeGreaterThanOrEqual(48);
  });
});
