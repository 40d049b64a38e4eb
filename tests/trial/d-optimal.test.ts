import { describe, expect, it } from "vitest";
import {
  dEfficiency,
  dOptimal,
  fullFactorial,
  largestCorrelation,
  logInformation,
  probitWeight,
  regressorCount,
  regressorRow,
  twoLevelFactorial,
} from "#trial";

const threeLevels = fullFactorial([3, 3]).map((row) => row.map((level) => level - 1));
const weightless = (rows: readonly (readonly number[])[]) => ({ rows, weights: rows.map(() => 1) });
const quadratic = weightless(threeLevels.map((x) => regressorRow("quadratic", x)));

describe("D-optimal designs", () => {
  it("9 runs of a quadratic in two factors on a 3 × 3 list: the list itself, determinant 5184", () => {
    // Atkinson, Donev and Tobias, Optimum Experimental Designs: |XᵀX| = 5184 for the 3² factorial.
    const design = dOptimal({ models: [quadratic], count: 9, seed: 1, repeats: true });
    expect(Math.exp(design.logDeterminant)).toBeCloseTo(5184, 2);
    expect([...design.chosen].sort((a, b) => a - b)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8]);
    expect(Math.exp(logInformation(design.chosen.map((i) => quadratic.rows[i]!)))).toBeCloseTo(5184, 6);
  });

  it("straight model: the corners, twice each for eight runs in two factors; a factorial from a 3³ list", () => {
    const linear = weightless(threeLevels.map((x) => regressorRow("linear", x)));
    const design = dOptimal({ models: [linear], count: 8, seed: 3, repeats: true });
    expect(Math.exp(design.logDeterminant)).toBeCloseTo(8 ** 3, 4);
    const list = fullFactorial([3, 3, 3]).map((row) => row.map((level) => level - 1));
    const pairs = weightless(list.map((x) => regressorRow("interactions", x)));
    const cube = dOptimal({ models: [pairs], count: 8, seed: 3 });
    expect(Math.exp(cube.logDeterminant)).toBeCloseTo(8 ** 7, 0);
    expect(cube.chosen.every((i) => list[i]!.every((x) => x !== 0))).toBe(true);
  });

  it("is as good as the best of all subsets of a small list with unequal weights", () => {
    const rows = threeLevels.map((x) => regressorRow("linear", x));
    const weights = [0.3, 1, 0.2, 0.9, 0.5, 0.1, 0.7, 1, 0.4];
    const best = dOptimal({ models: [{ rows, weights }], count: 4, seed: 2, starts: 10 });
    let top = Number.NEGATIVE_INFINITY;
    for (let set = 0; set < 512; set++) {
      const inside = rows.map((_, i) => i).filter((i) => (set >> i) & 1);
      if (inside.length !== 4) continue;
      top = Math.max(top, logInformation(inside.map((i) => rows[i]!.map((v) => v * Math.sqrt(weights[i]!)))));
    }
    expect(best.logDeterminant).toBeCloseTo(top, 6);
  });

  it("keeps fixed runs, adds the determinants of several questions, repeats from its seed", () => {
    const linear = weightless(threeLevels.map((x) => regressorRow("linear", x)));
    const input = { models: [quadratic, linear], count: 8, seed: 5, fixed: [4], starts: 3 } as const;
    const design = dOptimal(input);
    expect(design.chosen[0]).toBe(4);
    expect(new Set(design.chosen).size).toBe(8);
    const of = (rows: readonly (readonly number[])[]) => logInformation(design.chosen.map((i) => rows[i]!));
    expect(design.logDeterminant).toBeCloseTo(of(quadratic.rows) + of(linear.rows), 5);
    expect(dOptimal(input)).toEqual(design);
  });

  it("never is singular with a prior, says so without one", () => {
    expect(() => dOptimal({ models: [quadratic], count: 4, seed: 1 })).toThrow("invalid count: 4 runs");
    const few = dOptimal({ models: [quadratic], count: 4, seed: 1, priorPrecision: 0.1 });
    expect(Number.isFinite(few.logDeterminant)).toBe(true);
    expect(new Set(few.chosen).size).toBe(4);
    expect(() => dOptimal({ models: [quadratic], count: 10, seed: 1 })).toThrow("invalid count: 10");
    expect(() => dOptimal({ models: [quadratic], count: 9, seed: 1, priorPrecision: -1 })).toThrow("invalid prior");
  });
});

describe("models that do not fit", () => {
  it.each([
    [{ rows: [[1, 2], [1]], weights: [1, 1] }, "invalid regressors: 1 (must be 2 for every candidate)"],
    [{ rows: [[1], [2]], weights: [1, -1] }, "invalid weight: -1"],
    [{ rows: [[1], [2]], weights: [1] }, "invalid weight: "],
    [{ rows: [[1], [Number.NaN]], weights: [1, 1] }, "invalid regressor: "],
    [{ rows: [], weights: [] }, "invalid candidates: 0"],
  ])("%j", (model, says) => {
    expect(() => dOptimal({ models: [model], count: 1, seed: 1 })).toThrow(says);
  });
  it("of unequal length", () => {
    const models = [
      { rows: [[1], [2]], weights: [1, 1] },
      { rows: [[1]], weights: [1] },
    ];
    expect(() => dOptimal({ models, count: 1, seed: 1 })).toThrow("invalid rows of a model: 1 (must be 2");
  });
});

describe("information in a yes or no", () => {
  it("is 2/π at one half, φ²/(p·(1 − p)) elsewhere, and never none", () => {
    expect(probitWeight(0.5)).toBeCloseTo(2 / Math.PI, 12);
    // η = 1: φ(1) = 0.241971, Φ(1) = 0.841345 (tables of the normal distribution)
    expect(probitWeight(0.841345)).toBeCloseTo(0.241971 ** 2 / (0.841345 * 0.158655), 5);
    expect(probitWeight(0)).toBeGreaterThan(0);
    expect(probitWeight(1)).toBeCloseTo(probitWeight(0), 12);
  });
});

describe("quality of a design", () => {
  it("rows of the models", () => {
    expect(regressorRow("quadratic", [2, 3])).toEqual([1, 2, 3, 6, 4, 9]);
    expect(regressorRow("interactions", [2, 3])).toEqual([1, 2, 3, 6]);
    for (const model of ["linear", "interactions", "quadratic"] as const)
      expect(regressorCount(model, 5)).toBe(regressorRow(model, [1, 2, 3, 4, 5]).length);
  });

  it("efficiency is 1 against itself, the square of the scale for straight terms, 0 for a flat design", () => {
    const rows = (scale: number) =>
      twoLevelFactorial(2).map((x) =>
        regressorRow(
          "linear",
          x.map((v) => scale * v),
        ),
      );
    expect(dEfficiency(rows(1), rows(1))).toBeCloseTo(1, 12);
    // det scales by s⁴ for two slopes; three coefficients: s^(4/3)
    expect(dEfficiency(rows(0.5), rows(1))).toBeCloseTo(0.5 ** (4 / 3), 12);
    expect(dEfficiency(rows(0), rows(1))).toBe(0);
  });

  it("largest correlation names its pair", () => {
    const points = [
      [0, 0, 1],
      [1, 2, 1],
      [2, 4.1, 1],
      [3, 5.9, 1],
    ];
    const found = largestCorrelation(points);
    expect(found.pair).toEqual([0, 1]);
    expect(found.value).toBeGreaterThan(0.99);
    expect(largestCorrelation(twoLevelFactorial(3)).value).toBe(0);
  });
});
