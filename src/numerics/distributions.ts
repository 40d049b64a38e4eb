import { betaIncomplete, betaLogOddsQuantile } from "./beta.ts";
import { gammaLogSlope, gammaLower, gammaUpper } from "./gamma.ts";
import { invertMonotone } from "./invert-monotone.ts";
import { demand } from "./numerical-error.ts";

function checkFreedom(df: number): void {
  demand(df > 0 && Number.isFinite(df), `degrees of freedom must be above 0, got ${df}`);
}

/** Student's t distribution function. Any t (1), degrees of freedom (1) above 0; result 0 to 1. Source: dlmf 8.17. */
export function studentTCdf(t: number, df: number): number {
  checkFreedom(df);
  const square = t * t;
  const tail =
    square < df
      ? 0.5 - 0.5 * betaIncomplete(0.5, df / 2, square / (df + square))
      : 0.5 * betaIncomplete(df / 2, 0.5, df / (df + square));
  return t > 0 ? 1 - tail : tail;
}

/**
 * Quantile of Student's t. p (1) between 0 and 1, degrees of freedom (1) above 0; result (1).
 * @throws NumericalError for arguments outside their range
 */
export function studentTQuantile(p: number, df: number): number {
  checkFreedom(df);
  demand(p > 0 && p < 1, `studentTQuantile: p must be between 0 and 1, got ${p}`);
  if (p === 0.5) return 0;
  const odds = betaLogOddsQuantile(2 * Math.min(p, 1 - p), df / 2, 0.5);
  const size = Math.sqrt(df * Math.exp(-odds));
  return p < 0.5 ? -size : size;
}

/** Chi-square distribution function P(df/2, x/2). x (1) 0 or above, degrees of freedom (1) above 0; result 0 to 1. */
export function chiSquareCdf(x: number, df: number): number {
  checkFreedom(df);
  return gammaLower(df / 2, x / 2);
}

/** Upper tail of chi-square, 1 − chiSquareCdf, accurate where it is small. */
export function chiSquareUpper(x: number, df: number): number {
  checkFreedom(df);
  return gammaUpper(df / 2, x / 2);
}

/**
 * Quantile of chi-square. p (1) from 0 to below 1, degrees of freedom (1) above 0; result (1).
 * @throws NumericalError for arguments outside their range
 */
export function chiSquareQuantile(p: number, df: number): number {
  checkFreedom(df);
  demand(p >= 0 && p < 1, `chiSquareQuantile: p must be 0 to below 1, got ${p}`);
  if (p === 0) return 0;
  const a = df / 2;
  const upper = p > 0.5;
  const tail = (y: number): { value: number; slope: number } => {
    const x = Math.exp(y);
    const slope = gammaLogSlope(a, x);
    return upper ? { value: gammaUpper(a, x), slope: -slope } : { value: gammaLower(a, x), slope };
  };
  const start = Math.log(a);
  return 2 * Math.exp(invertMonotone(tail, upper ? 1 - p : p, -700, start + 8, start));
}

/**
 * Upper tail of the F distribution. f (1) 0 or above, degrees of freedom above and below the line (1) above 0;
 * result 0 to 1. Source: dlmf 8.17.
 */
export function fUpper(f: number, dfAbove: number, dfBelow: number): number {
  checkFreedom(dfAbove);
  checkFreedom(dfBelow);
  demand(f >= 0, `fUpper: f must be 0 or above, got ${f}`);
  return betaIncomplete(dfBelow / 2, dfAbove / 2, dfBelow / (dfBelow + dfAbove * f));
}
