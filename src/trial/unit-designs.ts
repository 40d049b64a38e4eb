import { createRandom, latinHypercube as latinPoints, sobolMaxDimension, sobolPoints } from "#numerics";
import { requireInteger } from "#units";

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
 * Latin hypercube: in every one-dimensional view each of the `count` equal strata of [0, 1) holds one point.
 * Dimensionless; fixed by `seed`. Throws InvalidInput on counts out of range.
 * Source: McKay, Beckman and Conover, Technometrics 21 (1979).
 */
export function latinHypercube(count: number, dimension: number, seed: number): number[][] {
  requireInteger("count", count, 1, 100_000);
  requireInteger("dimension", dimension, 1, 64);
  return latinPoints(count, dimension, createRandom(seed)).map((point) => Array.from(point));
}
