import { describe, expect, it } from "vitest";
import {
  boxBehnken,
  centralComposite,
  closestPair,
  definingRelation,
  fractionalFactorial,
  latinHypercube,
  mostHalvings,
  plackettBurman,
  plackettBurmanRuns,
  rotatableDistance,
  twoLevelFactorial,
} from "#trial";

const inner = (rows: readonly (readonly number[])[], a: readonly number[], b: readonly number[] = []): number =>
  rows.reduce((sum, row) => sum + [...a, ...b].reduce((product, k) => product * row[k]!, 1), 0);

/** Balanced columns, every two of them orthogonal: XᵀX = N·I with the constant. */
function expectOrthogonal(rows: readonly (readonly number[])[]): void {
  const factors = rows[0]!.length;
  for (let i = 0; i < factors; i++) {
    expect(inner(rows, [i])).toBe(0);
    for (let j = 0; j < i; j++) expect(inner(rows, [i], [j])).toBe(0);
  }
}

const subsets = (count: number): number[][] =>
  Array.from({ length: 2 ** count - 1 }, (_, s) =>
    Array.from({ length: count }, (_, k) => k).filter((k) => ((s + 1) >> k) & 1),
  );

describe("two-level designs", () => {
  it("full factorial: 2^k different rows, orthogonal", () => {
    const rows = twoLevelFactorial(4);
    expect(new Set(rows.map(String)).size).toBe(16);
    expectOrthogonal(rows);
    expect(twoLevelFactorial(2)).toEqual([
      [-1, -1],
      [1, -1],
      [-1, 1],
      [1, 1],
    ]);
    expect(() => twoLevelFactorial(13)).toThrow("invalid factors: 13");
  });

  // Box, Hunter and Hunter, Statistics for Experimenters: resolution of the fractions of 3 to 7 factors.
  const published = [
    [3, 1, 3],
    [4, 1, 4],
    [5, 1, 5],
    [5, 2, 3],
    [6, 1, 6],
    [6, 2, 4],
    [6, 3, 3],
    [7, 1, 7],
    [7, 2, 4],
    [7, 3, 4],
    [7, 4, 3],
  ] as const;
  it.each(published)("2^(%i−%i) has resolution %i in its words and in its columns", (factors, halvings, resolution) => {
    const fraction = fractionalFactorial(factors, halvings);
    expect(fraction.resolution).toBe(resolution);
    expect(fraction.rows.length).toBe(2 ** (factors - halvings));
    expect(new Set(fraction.rows.map(String)).size).toBe(fraction.rows.length);
    expectOrthogonal(fraction.rows);
    // The defining relation by brute force: products of columns that never change sign.
    const constant = subsets(factors).filter((set) => Math.abs(inner(fraction.rows, set)) === fraction.rows.length);
    const words = constant.map((set) => set.map((k) => "ABCDEFG"[k]).join(""));
    expect(words.sort()).toEqual([...fraction.words].sort());
  });

  // Fries and Hunter, Technometrics 22 (1980): the 2^(7−2) with one word of four letters, not two or three.
  it("takes the generators of least aberration", () => {
    const lengths = (factors: number, halvings: number) =>
      fractionalFactorial(factors, halvings).words.map((w) => w.length);
    expect(lengths(7, 2)).toEqual([4, 5, 5]);
    expect(lengths(6, 2)).toEqual([4, 4, 4]);
    expect(lengths(5, 2)).toEqual([3, 3, 4]);
    expect(lengths(7, 3)).toEqual([4, 4, 4, 4, 4, 4, 4]);
    expect(definingRelation(["F=ABC", "G=BCD"])).toEqual(["ABCF", "ADFG", "BCDG"]);
    expect(mostHalvings(7)).toBe(4);
    expect(mostHalvings(2)).toBe(0);
    expect(() => fractionalFactorial(4, 2)).toThrow("invalid halvings: 2 (at most 1 for 4 factors)");
  });

  it.each(plackettBurmanRuns)("Plackett-Burman of %i runs is balanced and orthogonal in all its columns", (runs) => {
    const rows = plackettBurman(runs);
    expect(rows.length).toBe(runs);
    expect(rows[0]!.length).toBe(runs - 1);
    expectOrthogonal(rows);
  });

  it("Plackett-Burman of 12 runs begins as published, and no three columns of it are alias to one another", () => {
    // Plackett and Burman, Biometrika 33 (1946): N = 12.
    expect(
      plackettBurman(12)[0]!
        .map((x) => (x > 0 ? "+" : "-"))
        .join(""),
    ).toBe("++-+++---+-");
    for (const [a, b, c] of [
      [0, 1, 2],
      [0, 4, 9],
      [3, 5, 10],
    ])
      expect(Math.abs(inner(plackettBurman(12), [a!, b!, c!]))).toBe(4);
    expect(() => plackettBurman(13 as 12)).toThrow("invalid runs: 13");
  });
});

describe("designs for curved responses", () => {
  it("rotatable distance of full factorials of 2 to 5 factors", () => {
    // Box, Hunter and Hunter: 1.414, 1.682, 2, 2.378.
    const alphas = [2, 3, 4, 5].map((k) => rotatableDistance(2 ** k).toFixed(3));
    expect(alphas).toEqual(["1.414", "1.682", "2.000", "2.378"]);
    expect(() => rotatableDistance(0)).toThrow("invalid factorial runs: 0");
  });

  it.each([2, 3, 4, 5])("central composite of %i factors is rotatable: Σx⁴ = 3·Σx²y²", (k) => {
    const rows = centralComposite(twoLevelFactorial(k), "rotatable");
    expect(rows.length).toBe(2 ** k + 2 * k);
    expectOrthogonal(rows);
    expect(inner(rows, [0, 0, 0, 0])).toBeCloseTo(3 * inner(rows, [0, 0, 1, 1]), 9);
    const face = centralComposite(twoLevelFactorial(k), "face");
    expect(Math.max(...face.flat().map(Math.abs))).toBe(1);
  });

  it.each([
    [3, 12],
    [4, 24],
    [5, 40],
    [6, 48],
    [7, 56],
  ])("Box-Behnken of %i factors has %i runs without centre, balanced", (factors, runs) => {
    const rows = boxBehnken(factors);
    expect(rows.length).toBe(runs);
    expect(new Set(rows.map(String)).size).toBe(runs);
    expectOrthogonal(rows);
    // every factor is as often at its ends as every other, and all points are equally far out
    const ends = Array.from({ length: factors }, (_, k) => rows.filter((row) => row[k] !== 0).length);
    expect(new Set(ends).size).toBe(1);
    expect(new Set(rows.map((row) => row.filter((x) => x !== 0).length)).size).toBe(1);
    // XᵀX of the products is diagonal too: x_i·x_j against x_k·x_l
    for (let a = 0; a < factors; a++)
      for (let b = 0; b < a; b++)
        for (let c = 0; c < factors; c++)
          for (let d = 0; d < c; d++) if (a !== c || b !== d) expect(inner(rows, [a, b], [c, d])).toBe(0);
    expect(() => boxBehnken(2)).toThrow("invalid factors: 2");
  });
});

describe("best of several Latin hypercubes", () => {
  it("is a Latin hypercube, no closer than the plain one, and the better the more are tried", () => {
    const distances = [1, 10, 100].map((trials) => closestPair(latinHypercube(15, 3, 4, trials)));
    expect(distances[1]).toBeGreaterThan(distances[0]!);
    expect(distances[2]).toBeGreaterThanOrEqual(distances[1]!);
    const points = latinHypercube(15, 3, 4, 100);
    for (let k = 0; k < 3; k++)
      expect(points.map((p) => Math.floor(p[k]! * 15)).sort((a, b) => a - b)).toEqual(
        Array.from({ length: 15 }, (_, i) => i),
      );
    expect(
      closestPair([
        [0, 0],
        [3, 4],
        [9, 9],
      ]),
    ).toBe(5);
    expect(() => latinHypercube(15, 3, 4, 0)).toThrow("invalid trials: 0");
  });
});
