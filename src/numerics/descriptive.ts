import { demand } from "./numerical-error.ts";

/** Arithmetic mean Σx/n; same unit as the values. @throws NumericalError without values */
export function mean(values: ArrayLike<number>): number {
  demand(values.length > 0, "mean: needs at least one value");
  let sum = 0;
  for (let i = 0; i < values.length; i += 1) sum += values[i]!;
  return sum / values.length;
}

/** Sample variance Σ(x − x̄)²/(n − 1); unit of the values squared. @throws NumericalError with fewer than two values */
export function variance(values: ArrayLike<number>): number {
  demand(values.length > 1, "variance: needs at least two values");
  const centre = mean(values);
  let squares = 0;
  let drift = 0;
  for (let i = 0; i < values.length; i += 1) {
    const off = values[i]! - centre;
    squares += off * off;
    drift += off;
  }
  return (squares - (drift * drift) / values.length) / (values.length - 1);
}

/** √variance. */
export function standardDeviation(values: ArrayLike<number>): number {
  return Math.sqrt(variance(values));
}

/**
 * Quantile with linear interpolation between order statistics: at (n − 1)·p counted from 0 (type 7).
 * Values in any order, any unit; p (1) from 0 to 1. Source: hyndman-fan-1996.
 * @throws NumericalError without values, with NaN among them, or when p is outside 0 to 1
 */
export function quantile(values: ArrayLike<number>, p: number): number {
  return sortedQuantile(sorted(values), p);
}

/** Several quantiles of the same values with one sort. */
export function quantiles(values: ArrayLike<number>, probabilities: readonly number[]): number[] {
  const ordered = sorted(values);
  return probabilities.map((p) => sortedQuantile(ordered, p));
}

/** The middle value. */
export function median(values: ArrayLike<number>): number {
  return quantile(values, 0.5);
}

function sorted(values: ArrayLike<number>): Float64Array {
  const ordered = Float64Array.from(values);
  for (let i = 0; i < ordered.length; i += 1) demand(!Number.isNaN(ordered[i]!), "quantile: a value is not a number");
  return ordered.sort();
}

function sortedQuantile(ordered: Float64Array, p: number): number {
  demand(ordered.length > 0, "quantile: needs at least one value");
  demand(p >= 0 && p <= 1, `quantile: p must be 0 to 1, got ${p}`);
  const place = (ordered.length - 1) * p;
  const below = Math.floor(place);
  const low = ordered[below]!;
  const high = ordered[Math.min(below + 1, ordered.length - 1)]!;
  return low === high ? low : low + (place - below) * (high - low);
}

/**
 * Smallest value whose cumulated weight reaches the share p of all weight. Weights (any unit) 0 or above.
 * @throws NumericalError for unequal lengths, a negative weight, no weight at all, or p outside 0 to 1
 */
export function weightedQuantile(values: ArrayLike<number>, weights: ArrayLike<number>, p: number): number {
  demand(
    values.length === weights.length && values.length > 0,
    "weightedQuantile: as many weights as values, at least one",
  );
  demand(p >= 0 && p <= 1, `weightedQuantile: p must be 0 to 1, got ${p}`);
  const order = Array.from({ length: values.length }, (_, i) => i).sort((i, j) => values[i]! - values[j]!);
  let total = 0;
  for (let i = 0; i < weights.length; i += 1) {
    demand(weights[i]! >= 0 && Number.isFinite(weights[i]!), "weightedQuantile: weights must be finite and 0 or above");
    total += weights[i]!;
  }
  demand(total > 0, "weightedQuantile: all weights are 0");
  let sum = 0;
  let last = order[0]!;
  for (const i of order) {
    if (weights[i]! === 0) continue;
    sum += weights[i]!;
    last = i;
    if (sum >= p * total) break;
  }
  return values[last]!;
}
