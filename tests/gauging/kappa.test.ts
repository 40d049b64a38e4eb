import { describe, expect, it } from "vitest";
import { cohenKappa } from "#gauging";

describe("Cohen's kappa", () => {
  // Tables and values: printed output of a statistics package, confirmed by a second and a third.
  it("of a table of two grades", () => {
    const found = cohenKappa([
      [20, 5],
      [10, 15],
    ]);
    expect(found.kappa).toBeCloseTo(0.4, 12);
    expect(found.standardError).toBeCloseTo(0.126996062931, 11);
    expect(found.standardErrorOfChance).toBeCloseTo(0.138564064606, 11);
    expect(found.agreement).toBeCloseTo(0.7, 14);
    expect(found.items).toBe(50);
  });

  it("of three grades: 0.4842 (0.1380), weighted 0.4701 and 0.4502", () => {
    const table = [
      [0, 4, 1],
      [0, 8, 0],
      [0, 1, 5],
    ];
    const plain = cohenKappa(table);
    expect(plain.kappa).toBeCloseTo(0.484162895928, 11);
    expect(plain.standardError).toBeCloseTo(0.138013578306, 11);
    expect(plain.standardErrorOfChance).toBeCloseTo(0.14839828189, 10);
    const linear = cohenKappa(table, "linear");
    expect(linear.kappa).toBeCloseTo(0.470119521912, 11);
    expect(linear.standardError).toBeCloseTo(0.145746045142, 11);
    expect(cohenKappa(table, "quadratic").kappa).toBeCloseTo(0.450160771704, 11);
  });

  it("of two grades is the same with any weights, 1 for full agreement and −1 for full disagreement", () => {
    const table = [
      [7, 2],
      [3, 9],
    ];
    expect(cohenKappa(table, "linear").kappa).toBeCloseTo(cohenKappa(table).kappa, 14);
    expect(cohenKappa(table, "quadratic").standardError).toBeCloseTo(cohenKappa(table).standardError, 14);
    const diagonal = [
      [5, 0],
      [0, 5],
    ];
    expect(cohenKappa(diagonal)).toMatchObject({ kappa: 1, standardError: 0 });
    expect(
      cohenKappa([
        [0, 5],
        [5, 0],
      ]).kappa,
    ).toBe(-1);
  });

  it("refuses what has no kappa", () => {
    expect(() =>
      cohenKappa([
        [5, 0],
        [0, 0],
      ]),
    ).toThrow("invalid grades: one grade throughout");
    expect(() => cohenKappa([[1, 2]])).toThrow("invalid grades: 1");
    expect(() =>
      cohenKappa([
        [1, 2],
        [3, 0.5],
      ]),
    ).toThrow("invalid count of grades: 0.5");
    expect(() =>
      cohenKappa([
        [0, 0],
        [0, 0],
      ]),
    ).toThrow("invalid graded items: 0");
  });
});
