import { describe, expect, it } from "vitest";
import { cleanSitesFor, failureUpperBound, linkSensitivity } from "#window";
import { normalCdf } from "#numerics";

describe("link sensitivity", () => {
  it("puts 1 % failures at 2.326, 1.645 and 3.678 deviations", () => {
    const { margins } = linkSensitivity([{ mean: 2, deviation: 0 }]);
    expect(margins.probit).toBeCloseTo(2.3263, 4);
    // (ln(−ln 0.01) − ln ln 2)/1.15107 and (ln ln 2 − ln(−ln 0.99))/1.15107, by hand
    expect(margins.fastTail).toBeCloseTo(1.6451, 3);
    expect(margins.slowTail).toBeCloseTo(3.6779, 3);
  });

  it("agrees at the median and in slope, and averages over draws as the probit does in closed form", () => {
    const at = (mean: number) => linkSensitivity([{ mean, deviation: 0 }]);
    for (const key of ["probit", "slowTail", "fastTail"] as const) {
      expect(at(0)[key]).toBeCloseTo(0.5, 12);
      expect((at(0.001)[key] - at(-0.001)[key]) / 0.002).toBeCloseTo(-0.39894, 4);
    }
    const wide = linkSensitivity([
      { mean: 1, deviation: 0.7 },
      { mean: 2, deviation: 1.5 },
    ]);
    const exact = (normalCdf(-1 / Math.hypot(1, 0.7)) + normalCdf(-2 / Math.hypot(1, 1.5))) / 2;
    expect(wide.probit).toBeCloseTo(exact, 8);
    expect(wide.slowTail).toBeGreaterThan(wide.probit);
    expect(wide.fastTail).toBeLessThan(wide.probit);
  });

  it("says it in one sentence", () => {
    expect(linkSensitivity([{ mean: 2.3, deviation: 0.2 }]).words).toContain(
      "1 % failures lie 1.6 to 3.7 deviations from the edge, 2.3 by probit",
    );
    expect(() => linkSensitivity([])).toThrow("invalid draws: 0");
  });
});

describe("sites that a claim needs", () => {
  it("0 of 10 bounds failures by 26 %; 299 clean sites show 1 %", () => {
    expect(failureUpperBound(10, 0)).toBeCloseTo(0.2589, 4);
    expect(cleanSitesFor(0.01)).toBe(299);
    expect(failureUpperBound(299, 0)).toBeLessThan(0.01);
    expect(failureUpperBound(298, 0)).toBeGreaterThan(0.01);
  });

  it("with failures seen: the first number whose upper bound is below the share", () => {
    for (const [failures, share] of [
      [1, 0.01],
      [2, 0.05],
      [5, 0.02],
    ] as const) {
      const sites = cleanSitesFor(share, 0.95, failures);
      expect(failureUpperBound(sites, failures)).toBeLessThanOrEqual(share);
      expect(failureUpperBound(sites - 1, failures)).toBeGreaterThan(share);
    }
    // 473: tables of binomial sampling plans for one failure at 99 % and 95 %
    expect(cleanSitesFor(0.01, 0.95, 1)).toBe(473);
    expect(cleanSitesFor(0.1, 0.9)).toBe(22);
  });
});
