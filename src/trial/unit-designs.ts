import { createRandom, latinHypercube as latinPoints, sobolMaxDimension, sobolPoints } from "#numerics";
import { requireInteger } from "#units";
import { squaredDistance } from "./maximin.ts";

/**
 * Sobol design: `count` points in [0, 1)^`dimension`, nested scramble fixed by `seed`.
 * Dimensionless. Throws InvalidInput on counts out of range.
 * Source: Joe and Kuo, SIAM J. Scientific Computing 30 (2008) for the directions; Owen (1995) for the scramble.
 */
export function sobolDesign(count: number, dimension: number, seed: number, skip = 0): number[][] {
  requireInteger("count", count, 1, 1_000_000);
  requireInteger("dimension", dimension, 1, sobolMaxDimension);
  return sobolPoints(count, dimension, { seed, skip }).map((point) => Array.from(point));
}

/**
 * Latin hypercube: in every one-dimensional view each of the `count` equal strata of [0, 1) holds one point. Of
 * `trials` of them the one whose two closest points are farthest apart (the first of equals).
 * Dimensionless; fixed by `seed`, and the first trial is the plain hypercube of that seed. Throws InvalidInput on
 * counts out of range. Source: McKay, Beckman and Conover, Technometrics 21 (1979); choice: Morris and Mitchell, J.
 * Statistical Planning and Inference 43 (1995).
 */
export function latinHypercube(count: number, dimension: number, seed: number, trials = 1): number[][] {
  requireInteger("count", count, 1, 100_000);
  requireInteger("dimension", dimension, 1, 64);
  requireInteger("trials", trials, 1, 10_000);
  const random = createRandom(seed);
  let best: number[][] = [];
  let bestDistance = -1;
  for (let trial = 0; trial < trials; trial++) {
    const points = latinPoints(count, dimension, random).map((point) => Array.from(point));
    const distance = trials === 1 ? 0 : closestPair(points);
    if (distance > bestDistance) [best, bestDistance] = [points, distance];
  }
  return best;
}

/** Distance between the two closest points; infinite for fewer than two. Unit of the points. Throws nothing. */
export function closestPair(points: readonly (readonly number[])[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < points.length; i++) {
    for (let j = 0; j < i; j++) least = Math.min(least, squaredDistance(points[i]!, points[j]!));
  }
  return Math.sqrt(least);
}
