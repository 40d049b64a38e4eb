import { describe, expect, it } from "vitest";
import {
  betaIncomplete,
  betaQuantile,
  chiSquareCdf,
  chiSquareQuantile,
  chiSquareUpper,
  erf,
  erfc,
  erfcx,
  expit,
  fUpper,
  gammaLower,
  gammaUpper,
  lnGamma,
  logit,
  NumericalError,
  normalCdf,
  normalLogCdf,
  normalPdf,
  normalQuantile,
  studentTCdf,
  studentTQuantile,
} from "#numerics";
import table from "./special-functions.json";

type Case = readonly [string, readonly number[][], (...arguments_: number[]) => number, number];

/** The last entry is the relative error allowed: what was measured, rounded up. */
const cases: readonly Case[] = [
  ["norm_quantile", table.norm_quantile, normalQuantile, 1e-15],
  ["norm_cdf", table.norm_cdf, normalCdf, 1e-15],
  ["norm_logcdf", table.norm_logcdf, normalLogCdf, 1e-15],
  ["erf", table.erf, erf, 1e-15],
  ["erfc", table.erfc, erfc, 1e-15],
  ["erfcx", table.erfcx, erfcx, 1e-15],
  ["lgamma", table.lgamma, lnGamma, 2e-14],
  ["gammainc_lower_reg", table.gammainc_lower_reg, gammaLower, 1e-14],
  ["gammainc_upper_reg", table.gammainc_upper_reg, gammaUpper, 2e-14],
  ["betainc_reg", table.betainc_reg, betaIncomplete, 2e-14],
  ["beta_quantile", table.beta_quantile, betaQuantile, 2e-14],
  ["t_quantile", table.t_quantile, studentTQuantile, 1e-14],
  ["chi2_quantile", table.chi2_quantile, chiSquareQuantile, 2e-14],
  ["F_sf", table.F_sf, fUpper, 3e-14],
];

describe("special functions against 50-digit values", () => {
  for (const [name, rows, f, allowed] of cases) {
    it.each(rows.map((row) => [row.slice(0, -1), row.at(-1) ?? Number.NaN] as const))(
      `${name}(%j)`,
      (given, wanted) => {
        // 0.9999999999 is not the decimal number: its distance from 1 is off by 8e-8, whatever the algorithm.
        const limit = name === "norm_quantile" && given[0] === 0.9999999999 ? 1e-8 : allowed;
        expect(Math.abs(f(...given) - wanted)).toBeLessThanOrEqual(limit * Math.abs(wanted));
      },
    );
  }
});

describe("special functions at their ends", () => {
  it("keeps signs and limits", () => {
    expect(erf(-0.7)).toBe(-erf(0.7));
    expect([erf(-9), erf(9), erfc(-9), erfc(40)]).toEqual([-1, 1, 2, 0]);
    expect(normalCdf(-Infinity)).toBe(0);
    expect(normalCdf(Infinity)).toBe(1);
    expect(normalLogCdf(-Infinity)).toBe(-Infinity);
    expect([normalQuantile(0), normalQuantile(1)]).toEqual([-Infinity, Infinity]);
    expect([gammaLower(2, 0), gammaLower(2, Infinity), gammaUpper(2, 0), gammaUpper(2, Infinity)]).toEqual([
      0, 1, 1, 0,
    ]);
    expect([betaIncomplete(2, 3, 0), betaIncomplete(2, 3, 1), betaQuantile(0, 2, 3), betaQuantile(1, 2, 3)]).toEqual([
      0, 1, 0, 1,
    ]);
    expect([expit(-1000), expit(0), expit(1000)]).toEqual([0, 0.5, 1]);
  });

  it("meets closed forms", () => {
    expect(normalPdf(0)).toBeCloseTo(1 / Math.sqrt(2 * Math.PI), 15);
    expect(normalPdf(1.5) / normalPdf(0)).toBeCloseTo(Math.exp(-1.125), 15);
    expect(erfcx(-1)).toBeCloseTo(Math.E * (1 + erf(1)), 13);
    expect(lnGamma(6)).toBeCloseTo(Math.log(120), 14);
    expect(studentTCdf(1, 1)).toBeCloseTo(0.75, 14);
    expect(studentTCdf(-3, 1)).toBeCloseTo(0.5 - Math.atan(3) / Math.PI, 14);
    expect(chiSquareCdf(3, 2)).toBeCloseTo(1 - Math.exp(-1.5), 14);
    expect(chiSquareUpper(1400, 2) / Math.exp(-700)).toBeCloseTo(1, 12);
    expect(logit(expit(-3.7))).toBeCloseTo(-3.7, 13);
    expect(studentTQuantile(studentTCdf(0.8, 7), 7)).toBeCloseTo(0.8, 13);
    expect(chiSquareQuantile(chiSquareCdf(9, 5), 5)).toBeCloseTo(9, 12);
  });

  it.each([
    () => normalQuantile(-0.1),
    () => normalQuantile(Number.NaN),
    () => logit(1.5),
    () => lnGamma(0),
    () => gammaLower(-1, 2),
    () => gammaUpper(1, -2),
    () => betaIncomplete(0, 1, 0.5),
    () => betaIncomplete(1, 1, 1.1),
    () => betaQuantile(2, 1, 1),
    () => studentTQuantile(0, 3),
    () => chiSquareQuantile(1, 3),
    () => chiSquareCdf(1, 0),
    () => fUpper(-1, 2, 3),
  ])("refuses what lies outside its range %#", (run) => {
    expect(run).toThrow(NumericalError);
  });
});
