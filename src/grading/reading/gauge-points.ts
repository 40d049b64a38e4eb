import { normalQuantile, studentTQuantile } from "#numerics";
import { requireInRange, requireInteger, requirePositive, invalid } from "#units";
import type { Measured } from "./estimate.ts";

/** More readings than this do not go on one patch. */
const MOST_POINTS = 1000;

/**
 * Gauge readings that a patch needs until their mean is known as well as wanted.
 *
 * Equation: the least n ≥ 2 with t_{(1 + c)/2, n − 1}·s/√n ≤ e. Units: s, the spread of single readings from place to
 * place, and e, the half width wanted, in one unit (m); c, confidence, 1; result a whole number.
 * Range: s and e above 0, c 0.5 to 0.999. Errors: InvalidInput outside, and where 1,000 readings would not do.
 * Source: Student's t; dlmf for its quantile.
 */
export function gaugePoints(spread: number, wanted: number, confidence = 0.9): number {
  const s = requirePositive("spread of readings", spread, "m");
  const e = requirePositive("half width wanted", wanted, "m");
  const c = requireInRange("confidence", confidence, "", 0.5, 0.999);
  const least = Math.max(2, Math.floor(((normalQuantile((1 + c) / 2) * s) / e) ** 2));
  for (let n = least; n <= MOST_POINTS; n += 1) {
    if ((studentTQuantile((1 + c) / 2, n - 1) * s) / Math.sqrt(n) <= e) return n;
  }
  invalid("half width wanted", wanted, "m", `needs more than ${MOST_POINTS} readings at a spread of ${spread} m`);
}

/**
 * Points that a patch needs, none of them with residue, to show that less than a share is covered.
 *
 * Equation: n = ⌈ln(1 − c)/ln(1 − p)⌉. Units: p share of area, c confidence; result a whole number.
 * Range: p above 0 and below 1. Errors: InvalidInput outside. Source: binomial distribution; 299 for 1 % at 95 %.
 */
export function cleanPoints(share: number, confidence = 0.95): number {
  const p = requireInRange("acceptance", share, "", 1e-6, 0.999);
  const c = requireInRange("confidence", confidence, "", 0.5, 0.999);
  return Math.ceil(Math.log1p(-c) / Math.log1p(-p) - 1e-9);
}

/**
 * Residue from points at which a gauge, a water film or a lamp said yes or no, with its own uncertainty for the window.
 *
 * Equation: mean and standard deviation of Beta(k + ½, n − k + ½). Units: shares of area; k points with residue of n.
 * Range: n 1 or more, points laid out before looking. Errors: InvalidInput for other counts.
 * Source: Jeffreys' prior for a proportion.
 */
export function residueFromPoints(withResidue: number, points: number): Measured {
  const n = requireInteger("points", points, 1, 1e6);
  const k = requireInteger("points with residue", withResidue, 0, n);
  const [a, b] = [k + 0.5, n - k + 0.5];
  return { value: a / (a + b), uncertainty: Math.sqrt((a * b) / ((a + b) ** 2 * (a + b + 1))) };
}
