import { demand } from "./numerical-error.ts";
import { type SobolDirection, sobolDirections } from "./sobol-directions.ts";

export const sobolMaxDimension = sobolDirections.length + 1;

export interface SobolOptions {
  /** points left out at the start; powers of two keep the balance */
  readonly skip?: number;
  /** seed of a nested (Owen) scramble; without one the plain sequence starts at the origin */
  readonly seed?: number;
}

/** 32 direction numbers of one dimension, as fractions of 2^32. */
function directionsOf(direction: SobolDirection | undefined): Uint32Array {
  const v = new Uint32Array(32);
  if (direction === undefined) {
    for (let k = 0; k < 32; k += 1) v[k] = 1 << (31 - k);
    return v;
  }
  const { degree, coefficients, integers } = direction;
  for (let k = 0; k < 32; k += 1) {
    if (k < degree) {
      v[k] = integers[k]! << (31 - k);
      continue;
    }
    let value = v[k - degree]! ^ (v[k - degree]! >>> degree);
    for (let j = 1; j < degree; j += 1) {
      if (((coefficients >>> (degree - 1 - j)) & 1) === 1) value ^= v[k - j]!;
    }
    v[k] = value;
  }
  return v;
}

function reverseBits(x: number): number {
  let r = ((x >>> 1) & 0x55555555) | ((x & 0x55555555) << 1);
  r = ((r >>> 2) & 0x33333333) | ((r & 0x33333333) << 2);
  r = ((r >>> 4) & 0x0f0f0f0f) | ((r & 0x0f0f0f0f) << 4);
  r = ((r >>> 8) & 0x00ff00ff) | ((r & 0x00ff00ff) << 8);
  return (r >>> 16) | (r << 16);
}

/** Permutation in which a bit depends only on itself, the seed and the bits below it: nested after bit reversal. */
function nestedPermutation(x: number, seed: number): number {
  let r = (x + seed) | 0;
  r ^= Math.imul(r, 0x6c50b47c);
  r ^= Math.imul(r, 0xb82f1e52);
  r ^= Math.imul(r, 0xc7afe638);
  r ^= Math.imul(r, 0x8d22f6e6);
  return r;
}

function hash(seed: number, dimension: number): number {
  let h = Math.imul(seed ^ 0x9e3779b9, 0x85ebca6b) + Math.imul(dimension + 1, 0xc2b2ae35);
  h = Math.imul(h ^ (h >>> 16), 0x7feb352d);
  h = Math.imul(h ^ (h >>> 15), 0x846ca68b);
  return (h ^ (h >>> 16)) | 0;
}

/**
 * `count` points of the Sobol sequence in `dimension` dimensions, coordinates in [0, 1); scrambled coordinates are
 * inside (0, 1). Gray-code order. Sources: joe-kuo-2008; scramble owen-1995 in the form of burley-2020.
 * count a whole number from 0, skip + count up to 2^31, dimension 1 to 160, seed a whole number.
 * @throws NumericalError when an argument is outside its range
 */
export function sobolPoints(count: number, dimension: number, options: SobolOptions = {}): Float64Array[] {
  const { skip = 0, seed } = options;
  demand(Number.isInteger(count) && count >= 0, `sobolPoints: count must be a whole number, got ${count}`);
  demand(Number.isInteger(skip) && skip >= 0 && skip + count <= 2 ** 31, `sobolPoints: skip out of range, got ${skip}`);
  demand(
    Number.isInteger(dimension) && dimension >= 1 && dimension <= sobolMaxDimension,
    `sobolPoints: dimension must be 1 to ${sobolMaxDimension}, got ${dimension}`,
  );
  demand(seed === undefined || Number.isSafeInteger(seed), `sobolPoints: the seed must be a whole number, got ${seed}`);
  const points = Array.from({ length: count }, () => new Float64Array(dimension));
  const folded = seed === undefined ? 0 : (seed | 0) ^ Math.imul(Math.floor(seed / 2 ** 32) | 0, 0x27d4eb2f);
  for (let j = 0; j < dimension; j += 1) {
    const v = directionsOf(sobolDirections[j - 1]);
    const key = hash(folded, j);
    let x = 0;
    for (let gray = skip ^ (skip >>> 1), k = 0; gray !== 0; gray >>>= 1, k += 1) {
      if ((gray & 1) === 1) x ^= v[k]!;
    }
    for (let i = 0; i < count; i += 1) {
      points[i]![j] =
        seed === undefined
          ? (x >>> 0) / 2 ** 32
          : ((reverseBits(nestedPermutation(reverseBits(x), key)) >>> 0) + 0.5) / 2 ** 32;
      x ^= v[31 - Math.clz32(~(skip + i) & -~(skip + i))]!;
    }
  }
  return points;
}
