import { studentTQuantile } from "#numerics";

/** A figure found from measurements. `low` to `high` is its 95 % interval. Unit: that of the figure throughout. */
export interface Estimate {
  readonly value: number;
  readonly standardError: number;
  readonly low: number;
  readonly high: number;
}

/** Degrees of freedom of errors that were known beforehand: Student's distribution is the normal one there. */
export const knownErrors = 1e6;

/**
 * Estimate of a figure that cannot be negative, from its logarithm: value e^m, standard error e^m·s, interval
 * e^(m ± t·s), t the 97.5 % quantile of Student's distribution. m, s (1): logarithm of the figure in its unit and the
 * standard error of that; degrees of freedom above 0. Throws nothing for finite m and s ≥ 0.
 * Source: delta method, for example gelman-bda3 4.1.
 */
export function logEstimate(m: number, s: number, degreesOfFreedom: number): Estimate {
  const t = studentTQuantile(0.975, degreesOfFreedom);
  const value = Math.exp(m);
  return { value, standardError: value * s, low: Math.exp(m - t * s), high: Math.exp(m + t * s) };
}

/** Estimate with the symmetric interval value ± t·s; unit of the value, degrees of freedom above 0. */
export function plainEstimate(value: number, s: number, degreesOfFreedom: number): Estimate {
  const t = studentTQuantile(0.975, degreesOfFreedom);
  return { value, standardError: s, low: value - t * s, high: value + t * s };
}
