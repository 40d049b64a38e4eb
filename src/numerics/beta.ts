import { deviancePart, stirlingRest } from "./gamma.ts";
import { invertMonotone } from "./invert-monotone.ts";
import { demand, NumericalError } from "./numerical-error.ts";

const iterationLimit = 200_000;

/** x^a·y^b/B(a, b) with y = 1 − x, by saddle point. Source: loader-2000. */
function powerTerm(a: number, b: number, x: number, y: number): number {
  const n = a + b;
  const exponent =
    stirlingRest(n) - stirlingRest(a) - stirlingRest(b) - deviancePart(a, n * x) - deviancePart(b, n * y);
  return Math.sqrt((a / (2 * Math.PI)) * (b / n)) * Math.exp(exponent);
}

/** Continued fraction 8.17.22 of the handbook by the modified method of Lentz. */
function fraction(a: number, b: number, x: number): number {
  const guarded = (v: number): number => (Math.abs(v) < 1e-300 ? 1e-300 : v);
  let c = 1;
  let d = 1 / guarded(1 - ((a + b) * x) / (a + 1));
  let value = d;
  for (let m = 1; m < iterationLimit; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / guarded(1 + even * d);
    c = guarded(1 + even / c);
    value *= c * d;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / guarded(1 + odd * d);
    c = guarded(1 + odd / c);
    const factor = c * d;
    value *= factor;
    if (Math.abs(factor - 1) < 2e-16) return value;
  }
  throw new NumericalError(`betaIncomplete: no convergence for a = ${a}, b = ${b}, x = ${x}`);
}

function lowerShare(a: number, b: number, x: number, y: number): number {
  if (x <= 0) return 0;
  if (y <= 0) return 1;
  if (x <= (a + 1) / (a + b + 2)) return (powerTerm(a, b, x, y) * fraction(a, b, x)) / a;
  return 1 - (powerTerm(b, a, y, x) * fraction(b, a, y)) / b;
}

function check(a: number, b: number): void {
  demand(a > 0 && b > 0 && Number.isFinite(a + b), `beta distribution: a and b must be above 0, got ${a} and ${b}`);
}

/**
 * Regularised incomplete beta function I_x(a, b). a, b (1) above 0, x (1) from 0 to 1; result 0 to 1.
 * Source: dlmf 8.17.
 * @throws NumericalError for arguments outside their range
 */
export function betaIncomplete(a: number, b: number, x: number): number {
  check(a, b);
  demand(x >= 0 && x <= 1, `betaIncomplete: x must be 0 to 1, got ${x}`);
  return lowerShare(a, b, x, 1 - x);
}

/** ln(x/(1 − x)) of the p quantile: keeps both x and 1 − x accurate. p from above 0 to below 1. */
export function betaLogOddsQuantile(p: number, a: number, b: number): number {
  check(a, b);
  demand(p > 0 && p < 1, `betaQuantile: p must be between 0 and 1, got ${p}`);
  if (p > 0.5) return -betaLogOddsQuantile(1 - p, b, a);
  const lower = (odds: number): { value: number; slope: number } => {
    const x = 1 / (1 + Math.exp(-odds));
    const y = 1 / (1 + Math.exp(odds));
    return { value: lowerShare(a, b, x, y), slope: x > 0 && y > 0 ? powerTerm(a, b, x, y) : 0 };
  };
  return invertMonotone(lower, p, -708, 708, Math.log(a / b));
}

/**
 * x with I_x(a, b) = p. p (1) from 0 to 1; a, b (1) above 0; result 0 to 1. Results below 1e-307 come out as that.
 * @throws NumericalError for arguments outside their range
 */
export function betaQuantile(p: number, a: number, b: number): number {
  if (p === 0 || p === 1) {
    check(a, b);
    return p;
  }
  return 1 / (1 + Math.exp(-betaLogOddsQuantile(p, a, b)));
}
