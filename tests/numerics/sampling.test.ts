import { describe, expect, it } from "vitest";
import { createRandom, latinHypercube, mean, NumericalError, sobolMaxDimension, sobolPoints } from "#numerics";
import first from "./sobol-first-points.json";

/** How many of n points share a cell when each axis is cut into the given number of equal parts. */
function fullestCell(
  points: readonly Float64Array[],
  axes: readonly [number, number],
  cuts: readonly [number, number],
): number {
  const cells = new Map<number, number>();
  for (const p of points) {
    const key = Math.floor(p[axes[0]]! * cuts[0]) * cuts[1] + Math.floor(p[axes[1]]! * cuts[1]);
    cells.set(key, (cells.get(key) ?? 0) + 1);
  }
  return Math.max(...cells.values());
}

describe("Sobol points", () => {
  it("are the published first points", () => {
    expect(sobolPoints(32, 8).map((p) => [...p])).toEqual(first.points);
  });

  it("are right in high dimensions (values from SciPy's generator with the same table, 32 bits)", () => {
    expect([...sobolPoints(16, 21)[13]!]).toEqual([
      0.8125, 0.6875, 0.8125, 0.0625, 0.4375, 0.9375, 0.5625, 0.5625, 0.5625, 0.4375, 0.8125, 0.9375, 0.0625, 0.8125,
      0.1875, 0.5625, 0.1875, 0.6875, 0.5625, 0.9375, 0.5625,
    ]);
    const points = sobolPoints(1024, 160);
    expect([points[1000]![99], points[1000]![159]]).toEqual([0.1865234375, 0.1455078125]);
    expect([points[777]![30], points[777]![120]]).toEqual([0.5419921875, 0.6259765625]);
    expect(sobolMaxDimension).toBe(160);
  });

  it("may start later", () => {
    const all = sobolPoints(40, 5);
    expect(sobolPoints(13, 5, { skip: 27 })).toEqual(all.slice(27));
    const scrambled = sobolPoints(40, 5, { seed: 3 });
    expect(sobolPoints(13, 5, { skip: 27, seed: 3 })).toEqual(scrambled.slice(27));
  });

  it("stay a net when scrambled: one point in every elementary cell of the first two dimensions", () => {
    const points = sobolPoints(256, 6, { seed: 42 });
    for (let k = 0; k <= 8; k += 1) expect(fullestCell(points, [0, 1], [2 ** k, 2 ** (8 - k)])).toBe(1);
    for (let j = 0; j < 6; j += 1) expect(fullestCell(points, [j, j], [256, 1])).toBe(1);
    for (const p of points) for (const x of p) expect(x > 0 && x < 1).toBe(true);
  });

  it("scramble by seed, without bias over seeds", () => {
    expect(sobolPoints(8, 3, { seed: 1 })).toEqual(sobolPoints(8, 3, { seed: 1 }));
    expect(sobolPoints(8, 3, { seed: 1 })).not.toEqual(sobolPoints(8, 3, { seed: 2 }));
    expect(sobolPoints(8, 3, { seed: 1 })).not.toEqual(sobolPoints(8, 3, { seed: 1 + 2 ** 32 }));
    for (const [point, dimension] of [
      [0, 0],
      [0, 2],
      [5, 1],
    ] as const) {
      const seen = Array.from({ length: 2000 }, (_, seed) => sobolPoints(6, 3, { seed })[point]![dimension]!);
      expect(Math.abs(mean(seen) - 0.5)).toBeLessThan(4 / Math.sqrt(12 * 2000));
    }
  });

  it("integrate a product of 12 smooth factors far better than random points would", () => {
    const f = (p: Float64Array): number => p.reduce((product, x) => product * (1 + 0.4 * (x - 0.5)), 1);
    const value = mean(sobolPoints(4096, 12, { seed: 9 }).map(f));
    expect(Math.abs(value - 1)).toBeLessThan(5e-4);
  });

  it.each([
    () => sobolPoints(-1, 2),
    () => sobolPoints(4, 0),
    () => sobolPoints(4, 161),
    () => sobolPoints(4, 2, { skip: -1 }),
    () => sobolPoints(4, 2, { seed: 0.5 }),
  ])("refuse arguments out of range %#", (run) => {
    expect(run).toThrow(NumericalError);
  });
});

describe("Latin hypercube", () => {
  it("has one point in every stratum of every dimension", () => {
    const points = latinHypercube(30, 4, createRandom(8));
    for (let j = 0; j < 4; j += 1) {
      const strata = points.map((p) => Math.floor(p[j]! * 30)).sort((a, b) => a - b);
      expect(strata).toEqual(Array.from({ length: 30 }, (_, i) => i));
    }
    expect(points.map((p) => p[0])).not.toEqual(points.map((p) => p[1]));
    expect(latinHypercube(30, 4, createRandom(8))).toEqual(points);
  });

  it("refuses counts that are no counts", () => {
    expect(() => latinHypercube(0, 2, createRandom(1))).toThrow(NumericalError);
    expect(() => latinHypercube(3, 1.5, createRandom(1))).toThrow(NumericalError);
  });
});
