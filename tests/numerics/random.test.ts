import { describe, expect, it } from "vitest";
import { createRandom, mean, NumericalError, normalCdf, randomFromState, variance } from "#numerics";

describe("random streams", () => {
  it("are xoshiro128** (values of the published reference code for state 1, 2, 3, 4)", () => {
    const stream = randomFromState([1, 2, 3, 4]);
    expect(Array.from({ length: 10 }, () => stream.uint32())).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ]);
  });

  it("jump by 2^64 draws (state after the jump from the reference code)", () => {
    const jumped = randomFromState([1, 2, 3, 4]);
    jumped.jump();
    const reference = randomFromState([2843103750, 2038079848, 1533207345, 44816753]);
    for (let i = 0; i < 5; i += 1) expect(jumped.uint32()).toBe(reference.uint32());
  });

  it("depend on the seed and on nothing else", () => {
    const draws = (seed: number): number[] => {
      const stream = createRandom(seed);
      return Array.from({ length: 4 }, () => stream.next());
    };
    expect(draws(7)).toEqual(draws(7));
    const seeds = [0, 1, -1, 7, 2 ** 32, 2 ** 32 + 7, 2 ** 40];
    expect(new Set(seeds.map((seed) => draws(seed)[0])).size).toBe(seeds.length);
  });

  it("keep their numbers from version to version: stored answers name a seed", () => {
    const stream = createRandom(2026);
    expect([stream.uint32(), stream.next(), stream.normal(), stream.integer(1000)]).toEqual([
      2696668728, 0.8316595871117628, -1.1846625504750634, 965,
    ]);
    expect(stream.substream(3).uint32()).toBe(894273189);
    expect(stream.substream(3).substream(1).uint32()).toBe(676813295);
  });

  it("give substreams that do not depend on draws taken and differ by path", () => {
    const root = createRandom(1);
    const early = root.substream(3).next();
    root.next();
    expect(root.substream(3).next()).toBe(early);
    const firsts = [
      root.substream(0),
      root.substream(1),
      root.substream(2),
      root.substream(1).substream(1),
      createRandom(2).substream(1),
      root.substream(2 ** 33 + 1),
    ].map((stream) => stream.next());
    expect(new Set(firsts).size).toBe(firsts.length);
  });

  it("are uniform and normal (40,000 draws, four standard errors)", () => {
    const n = 40_000;
    const stream = createRandom(11);
    const uniform = Float64Array.from({ length: n }, () => stream.next());
    expect(Math.abs(mean(uniform) - 0.5)).toBeLessThan(4 / Math.sqrt(12 * n));
    expect(Math.abs(variance(uniform) - 1 / 12)).toBeLessThan(4 * Math.sqrt(1 / 180 / n));
    expect(Math.min(...uniform)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...uniform)).toBeLessThan(1);
    const normal = Float64Array.from({ length: n }, () => stream.normal());
    expect(Math.abs(mean(normal))).toBeLessThan(4 / Math.sqrt(n));
    expect(Math.abs(variance(normal) - 1)).toBeLessThan(4 * Math.sqrt(2 / n));
    // Kolmogorov's distance; 1.95/√n is passed once in a thousand seeds.
    const sorted = normal.map(normalCdf).sort();
    const distance = Math.max(...sorted.map((p, i) => Math.max(Math.abs(p - i / n), Math.abs(p - (i + 1) / n))));
    expect(distance).toBeLessThan(1.95 / Math.sqrt(n));
  });

  it("draw whole numbers evenly and shuffle without loss", () => {
    const stream = createRandom(5);
    const counts = [0, 0, 0, 0, 0, 0, 0];
    for (let i = 0; i < 7000; i += 1) counts[stream.integer(7)]! += 1;
    const chi = counts.reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0);
    expect(chi).toBeLessThan(22.46);
    const items = Array.from({ length: 50 }, (_, i) => i);
    const mixed = stream.shuffle(items);
    expect(mixed).not.toEqual(items);
    expect([...mixed].sort((a, b) => a - b)).toEqual(items);
    expect(items[0]).toBe(0);
    const places = [0, 0, 0];
    for (let i = 0; i < 3000; i += 1) places[stream.shuffle([0, 1, 2]).indexOf(0)]! += 1;
    for (const count of places) expect(Math.abs(count - 1000)).toBeLessThan(4 * Math.sqrt(3000 * (2 / 9)));
  });

  it.each([
    () => createRandom(1.5),
    () => createRandom(Number.NaN),
    () => randomFromState([0, 0, 0, 0]),
    () => createRandom(1).integer(0),
    () => createRandom(1).substream(-1),
  ])("refuse what is no seed %#", (run) => {
    expect(run).toThrow(NumericalError);
  });
});
