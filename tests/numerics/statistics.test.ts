import { describe, expect, it } from "vitest";
import {
  clopperPearson,
  createRandom,
  effectiveSampleSize,
  mean,
  median,
  NumericalError,
  quantile,
  quantiles,
  splitRHat,
  standardDeviation,
  variance,
  weightedQuantile,
  wilsonInterval,
} from "#numerics";

describe("descriptive statistics", () => {
  it("of a worked list", () => {
    const values = [2, 4, 4, 4, 5, 5, 7, 9];
    expect(mean(values)).toBe(5);
    expect(variance(values)).toBeCloseTo(32 / 7, 14);
    expect(standardDeviation(values)).toBeCloseTo(Math.sqrt(32 / 7), 14);
    expect(variance([1e9 + 1, 1e9 + 2, 1e9 + 3])).toBe(1);
  });

  it("take quantiles of type 7, whatever the order", () => {
    // Hyndman & Fan type 7: position (n − 1)p, by hand.
    const values = [10, 1, 7, 4];
    expect(quantiles(values, [0, 0.1, 0.25, 0.5, 0.9, 1])).toEqual(
      [1, 1.9, 3.25, 5.5, 9.1, 10].map((x) => expect.closeTo(x, 13)),
    );
    expect(values).toEqual([10, 1, 7, 4]);
    expect(median([3, 1, 2])).toBe(2);
    expect(quantile([5], 0.3)).toBe(5);
    expect(quantile([-Infinity, -Infinity, 1], 0.2)).toBe(-Infinity);
  });

  it("weigh", () => {
    expect(weightedQuantile([3, 1, 2], [1, 2, 1], 0.5)).toBe(1);
    expect(weightedQuantile([3, 1, 2], [1, 2, 1], 0.6)).toBe(2);
    expect(weightedQuantile([3, 1, 2], [0, 2, 1], 1)).toBe(2);
    expect(weightedQuantile([3, 1, 2], [1, 0, 1], 0)).toBe(2);
  });

  it.each([
    () => mean([]),
    () => variance([1]),
    () => quantile([], 0.5),
    () => quantile([1, Number.NaN], 0.5),
    () => quantile([1, 2], 1.1),
    () => weightedQuantile([1], [0], 0.5),
    () => weightedQuantile([1, 2], [1, -1], 0.5),
    () => weightedQuantile([1, 2], [1], 0.5),
  ])("refuse what has no answer %#", (run) => {
    expect(run).toThrow(NumericalError);
  });
});

describe("intervals of a proportion, 95 %", () => {
  // Values of R's binom.test and prop.test.
  it.each([
    [81, 263, [0.255288519878, 0.366209576983], [0.252736745585, 0.367621922601]],
    [15, 148, [0.062386399531, 0.160487241723], [0.057844010083, 0.161650490349]],
    [0, 20, [0, 0.161125158053], [0, 0.168433470983]],
    [1, 29, [0.006113214293, 0.171755218793], [0.000872646884, 0.177644295489]],
    [0, 5, [0, 0.434482464783], [0, 0.521823750105]],
    [1, 10, [0.017876213095, 0.404150026795], [0.002528578544, 0.445016117028]],
    [29, 30, [0.833296090086, 0.994091409618], [0.827830544367, 0.999156429073]],
  ])("%d of %d", (k, n, wilson, exact) => {
    const score = wilsonInterval(k, n);
    const tails = clopperPearson(k, n);
    expect([score.low, score.high]).toEqual(wilson.map((x) => expect.closeTo(x, 11)));
    expect([tails.low, tails.high]).toEqual(exact.map((x) => expect.closeTo(x, 11)));
  });

  it("4 of 20 at 90 % (NIST/SEMATECH e-Handbook, prc242)", () => {
    expect(clopperPearson(4, 20, 0.9)).toEqual({
      low: expect.closeTo(0.0713538843086, 12),
      high: expect.closeTo(0.401028117332, 12),
    });
    expect(wilsonInterval(4, 20, 0.9)).toEqual({
      low: expect.closeTo(0.0931180165812, 12),
      high: expect.closeTo(0.3783766858354, 12),
    });
  });

  it("stay within 0 to 1 and end there without failures", () => {
    expect(wilsonInterval(7, 7).high).toBe(1);
    expect(clopperPearson(7, 7).high).toBe(1);
    // No damage on 10 of 10: at most 26 % damaged, one-sided 95 %.
    expect(clopperPearson(0, 10, 0.9).high).toBeCloseTo(1 - 0.05 ** 0.1, 13);
  });

  it.each([
    () => wilsonInterval(3, 2),
    () => wilsonInterval(0, 0),
    () => clopperPearson(1.5, 3),
    () => clopperPearson(1, 3, 1),
  ])("refuse counts that are no counts %#", (run) => {
    expect(run).toThrow(NumericalError);
  });
});

describe("chain diagnostics", () => {
  const autoregressive = (rho: number, n: number, seed: number, shift = 0): Float64Array => {
    const stream = createRandom(seed);
    let x = stream.normal();
    return Float64Array.from({ length: n }, () => {
      x = rho * x + Math.sqrt(1 - rho * rho) * stream.normal();
      return x + shift;
    });
  };

  it.each([0, 0.5, 0.9])("count effective draws of an autoregressive chain, ρ = %d", (rho) => {
    const n = 20_000;
    const chains = [1, 2, 3, 4].map((seed) => autoregressive(rho, n, seed));
    const exact = (4 * n * (1 - rho)) / (1 + rho);
    expect(effectiveSampleSize(chains) / exact).toBeGreaterThan(0.88);
    expect(effectiveSampleSize(chains) / exact).toBeLessThan(1.12);
    expect(splitRHat(chains)).toBeLessThan(1.01);
  });

  it("see chains that disagree, and one chain that drifts", () => {
    const apart = [autoregressive(0.3, 1000, 1), autoregressive(0.3, 1000, 2, 1)];
    expect(splitRHat(apart)).toBeGreaterThan(1.1);
    expect(effectiveSampleSize(apart)).toBeLessThan(100);
    const drifting = autoregressive(0, 1000, 3).map((x, i) => x + i / 250);
    expect(splitRHat([drifting])).toBeGreaterThan(1.2);
  });

  it("match a computation by hand", () => {
    // Halves (1, 3) and (2, 6): W = (2 + 8)/2 = 5, B/n = variance of means 2 and 4 = 2, pooled = 5/2 + 2.
    expect(splitRHat([[1, 3, 2, 6]])).toBeCloseTo(Math.sqrt(4.5 / 5), 15);
  });

  it("treat constant chains and refuse short ones", () => {
    expect(splitRHat([[1, 1, 1, 1]])).toBe(1);
    expect(
      splitRHat([
        [1, 1, 1, 1],
        [2, 2, 2, 2],
      ]),
    ).toBe(Infinity);
    expect(() => splitRHat([[1, 2, 3]])).toThrow(NumericalError);
    expect(() => splitRHat([])).toThrow(NumericalError);
    expect(() =>
      effectiveSampleSize([
        [1, 2, 3, 4],
        [1, 2, 3, 4, 5],
      ]),
    ).toThrow(NumericalError);
  });
});
