import { demand } from "./numerical-error.ts";
import type { RandomStream } from "./random.ts";

/**
 * `count` points in `dimension` dimensions of which every coordinate has exactly one value in each of `count` equal
 * strata of (0, 1). Counts are whole numbers above 0. Source: mckay-1979.
 * @throws NumericalError for counts that are no counts
 */
export function latinHypercube(count: number, dimension: number, random: RandomStream): Float64Array[] {
  demand(Number.isInteger(count) && count > 0, `latinHypercube: count must be a whole number above 0, got ${count}`);
  demand(
    Number.isInteger(dimension) && dimension > 0,
    `latinHypercube: dimension must be a whole number above 0, got ${dimension}`,
  );
  const points = Array.from({ length: count }, () => new Float64Array(dimension));
  const strata = Array.from({ length: count }, (_, i) => i);
  for (let j = 0; j < dimension; j += 1) {
    random.shuffle(strata).forEach((stratum, i) => {
      points[i]![j] = Math.min((stratum + random.open()) / count, 1 - Number.EPSILON);
    });
  }
  return points;
}
