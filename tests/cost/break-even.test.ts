import { blankMethod, breakEven, capitalRecoveryFactor, payback } from "#cost";
import fc from "fast-check";
import { describe, expect, it } from "vitest";

const laser = {
  currency: "EUR",
  price: 50000,
  costPerYear: 12000,
  costPerArea: 10,
  interest: 0.08,
  areaPerYearMost: 600,
};
/** Invented figures. */
const other = { name: "grinding", costPerArea: 25, costPerYear: 3000 };

describe("break-even", () => {
  it("(12,000 − 3,000)/(25 − 10) is 600 m² a year (worked by hand)", () => {
    const found = breakEven(laser, other);
    expect(found).toMatchObject({ state: "from", areaPerYear: 600 });
    expect(found.words).toBe("On these figures the laser costs less than grinding from 600 m² a year upwards.");
  });

  it("says so where one set-up does not clean as much in its year", () => {
    expect(breakEven({ ...laser, areaPerYearMost: 599 }, other).words).toContain(
      "more than the 599 m² that one set-up cleans in its hours.",
    );
    expect(breakEven({ ...laser, areaPerYearMost: null }, other).words).not.toContain("one set-up");
  });

  it("is blank until somebody enters figures, and never takes one for the other", () => {
    for (const blank of [blankMethod, { ...other, costPerArea: null }, { ...other, costPerYear: null }]) {
      expect(breakEven(laser, blank).state).toBe("not entered");
      expect(breakEven(laser, blank).words).toContain("Not entered");
      expect(payback(laser, blank, 500)).toMatchObject({ saving: null, simple: null, withInterest: null });
    }
    expect(breakEven(laser, blankMethod).words).toContain("the other method");
  });

  it("knows the cases without a crossing and the one the other way round", () => {
    expect(breakEven(laser, { ...other, costPerYear: 12000 }).state).toBe("always");
    expect(breakEven(laser, { ...other, costPerArea: 10 }).state).toBe("never");
    expect(breakEven(laser, { ...other, costPerArea: 4 }).state).toBe("never");
    expect(breakEven(laser, { ...other, costPerArea: 4, costPerYear: 15000 })).toMatchObject({
      state: "up to",
      areaPerYear: 500,
    });
  });

  it("has equal costs where it says so, and the laser's are lower on the side named", () => {
    const money = fc.integer({ min: 0, max: 1e7 }).map((cents) => cents / 100);
    fc.assert(
      fc.property(money, money, money, money, (f, v, f0, v0) => {
        const found = breakEven(
          { ...laser, costPerYear: f, costPerArea: v },
          { name: "", costPerYear: f0, costPerArea: v0 },
        );
        const gap = (area: number) => f + v * area - (f0 + v0 * area);
        if (found.state === "from" || found.state === "up to") {
          fc.pre(Number.isFinite(found.areaPerYear));
          const scale = f + f0 + (v + v0) * found.areaPerYear;
          expect(Math.abs(gap(found.areaPerYear))).toBeLessThanOrEqual(1e-9 * scale);
          expect(gap(found.areaPerYear * (found.state === "from" ? 1.5 : 0.5))).toBeLessThanOrEqual(1e-9 * scale);
        }
        if (found.state === "always") expect(gap(123)).toBeLessThanOrEqual(0);
        if (found.state === "never") expect(gap(123)).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it("refuses negative money", () => {
    expect(() => breakEven(laser, { ...other, costPerArea: -1 })).toThrow(
      "invalid cost of the other method: -1 per m2 (must be 0 or above)",
    );
    expect(() => breakEven({ ...laser, currency: "€" }, other)).toThrow("invalid currency: €");
    expect(() => payback(laser, other, 0)).toThrow("invalid area a year: 0 m2 (must be above 0)");
    expect(() => payback({ ...laser, price: -5 }, other, 10)).toThrow("invalid price: -5");
  });
});

describe("payback", () => {
  it("50,000 from 1,000·(25 − 10) + 3,000 a year are 2.78 years without interest (worked by hand)", () => {
    const found = payback(laser, other, 1000);
    expect(found.saving).toBe(18000);
    expect(found.simple).toBeCloseTo(50 / 18, 12);
    expect(found.withInterest!).toBeGreaterThan(found.simple!);
  });

  it("with interest is the n whose capital recovery factor brings the price back (engineering-economy tables)", () => {
    for (const years of [1, 4, 10]) {
      const saving = laser.price * capitalRecoveryFactor(laser.interest, years);
      const found = payback(laser, { ...other, costPerArea: 10, costPerYear: saving }, 1);
      expect(found.withInterest).toBeCloseTo(years, 9);
    }
    expect(payback({ ...laser, interest: 0 }, other, 1000).withInterest).toBeCloseTo(50 / 18, 12);
  });

  it("never pays where nothing is saved, or less than the interest", () => {
    expect(payback(laser, { ...other, costPerArea: 1, costPerYear: 0 }, 1000).simple).toBeNull();
    const slow = payback(laser, { ...other, costPerArea: 10, costPerYear: 3999 }, 1000);
    expect(slow.simple).toBeCloseTo(50000 / 3999, 9);
    expect(slow.withInterest).toBeNull();
    expect(slow.words).toContain("never the interest");
  });
});
