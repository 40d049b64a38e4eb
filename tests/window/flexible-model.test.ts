import { describe, expect, it } from "vitest";
import { fitFlexible } from "#window";
import { createRandom, normalCdf } from "#numerics";

describe("probit classification by expectation propagation", () => {
  // Six points, kernel 4·exp(−d²/2); exact values from orthant probabilities of the normal distribution in six dimensions.
  const rows = [0, 0.5, 1, 1.4, 2.1, 2.6].map((x) => [x]);
  const seen = [false, false, true, false, true, true];
  const grid = [{ scales: { constant: 0, slope: 0, bump: 2, length: 1 }, weight: 1 }];
  const fit = fitFlexible(rows, seen, { grid });

  it("reaches ln Z = −4.87179131572, 0.0065 from the exact −4.86529759", () => {
    expect(fit.logEvidence).toBeCloseTo(-4.87179131572, 9);
    expect(Math.abs(fit.logEvidence - -4.86529759)).toBeLessThan(0.0066);
  });

  it("and the chances at four new places, within 0.0023 of the exact ones", () => {
    const found = [-0.5, 1.2, 1.8, 3.5].map((x) => fit.predict([x]).p);
    expect(found).toEqual(
      [0.236884876643, 0.473320187792, 0.720665236055, 0.698369555687].map((p) => expect.closeTo(p, 7)),
    );
    const exact = [0.2391874, 0.473589, 0.7193854, 0.6966929];
    for (const [i, p] of found.entries()) expect(Math.abs(p - exact[i]!)).toBeLessThan(0.0024);
  });

  it("leaves one out as a fit without that one says", () => {
    fit.leaveOneOut.forEach((p, i) => {
      const without = fitFlexible(
        rows.filter((_, k) => k !== i),
        seen.filter((_, k) => k !== i),
        { grid },
      );
      expect(Math.abs(without.predict(rows[i]!).p - p)).toBeLessThan(0.025);
    });
  });
});

describe("the flexible model", () => {
  function trial(n: number, seed: number, latent: (x: number, y: number) => number) {
    const stream = createRandom(seed);
    const rows = Array.from({ length: n }, () => [stream.normal(), stream.normal()]);
    return { rows, seen: rows.map(([x, y]) => stream.next() < normalCdf(latent(x!, y!))) };
  }

  it("finds a straight edge and a hump", () => {
    const straight = trial(120, 1, (x, y) => 1.5 * x - y);
    const fit = fitFlexible(straight.rows, straight.seen);
    expect(fit.predict([1.5, -1]).p).toBeGreaterThan(0.93);
    expect(fit.predict([-1.5, 1]).p).toBeLessThan(0.07);
    const hump = trial(150, 2, (x) => 2 - 2 * x * x);
    const bent = fitFlexible(hump.rows, hump.seen);
    expect(bent.predict([0, 0]).p).toBeGreaterThan(0.85);
    expect(bent.predict([2, 0]).p).toBeLessThan(0.35);
    expect(bent.predict([-2, 0]).p).toBeLessThan(0.35);
  });

  it("stays unsure far from a handful of patches, and when all came out alike", () => {
    const few = fitFlexible([[0], [0.5]], [true, false]);
    expect(few.predict([3]).p).toBeGreaterThan(0.1);
    expect(few.predict([3]).p).toBeLessThan(0.9);
    const alike = fitFlexible(
      Array.from({ length: 20 }, (_, i) => [i / 10 - 1]),
      new Array<boolean>(20).fill(true),
    );
    expect(alike.predict([0]).p).toBeGreaterThan(0.9);
    expect(alike.predict([0]).p).toBeLessThan(1);
    expect(alike.leaveOneOut.every((p) => p > 0.5 && p < 1)).toBe(true);
  });

  it("states chances that come true: leave-one-out bins of 40 made-up trials", () => {
    const bins = Array.from({ length: 5 }, () => ({ said: 0, came: 0, n: 0 }));
    for (let seed = 0; seed < 40; seed++) {
      const stream = createRandom(1000 + seed);
      const [a, b, c] = [stream.normal(), stream.normal(), stream.normal()];
      const { rows, seen } = trial(40, seed, (x, y) => a + b * x + c * y);
      fitFlexible(rows, seen).leaveOneOut.forEach((p, i) => {
        const bin = bins[Math.min(4, Math.floor(5 * p))]!;
        bin.said += p;
        bin.came += seen[i] ? 1 : 0;
        bin.n++;
      });
    }
    for (const { said, came, n } of bins) expect(Math.abs(said - came) / n).toBeLessThan(0.06);
  });

  it("takes contradictions and equal rows, refuses what is no data", () => {
    const twice = fitFlexible([[1], [1], [1], [1]], [true, false, true, false]);
    expect(twice.predict([1]).p).toBeCloseTo(0.5, 6);
    expect(() => fitFlexible([], [])).toThrow("invalid rows: 0");
    expect(() => fitFlexible([[1], [1, 2]], [true, false])).toThrow("invalid row: 2 columns");
    expect(() => fitFlexible([[Number.NaN]], [true])).toThrow("invalid value of a row");
    expect(() => fitFlexible([[1]], [])).toThrow("invalid outcomes: 0");
  });
});
