import { NumericalError } from "#numerics";

/** share of a radius that the search for its undistorted value may miss */
const closeEnough = 1e-14;

/**
 * Radial term of a lens: q·(1 + k·|q|²). q: from the middle of the picture, in half diagonals; k 1, positive pushes
 * outwards; result as q. Source: Brown, Photogrammetric Engineering 37 (1971) 855, first term.
 */
export function bend(k: number, x: number, y: number): [number, number] {
  const factor = 1 + k * (x * x + y * y);
  return [x * factor, y * factor];
}

/**
 * Inverse of `bend` by Newton's method on the radius: r(1 + k·r²) = |p|. p as q; range: where 1 + 3k·r² stays above 0.
 * Errors: NumericalError beyond, where the lens would fold the picture.
 */
export function unbend(k: number, x: number, y: number): [number, number] {
  const bent = Math.hypot(x, y);
  if (bent === 0 || k === 0) return [x, y];
  let r = bent;
  for (let step = 0; step < 50; step += 1) {
    const slope = 1 + 3 * k * r * r;
    if (!(slope > 0)) break;
    const change = (r * (1 + k * r * r) - bent) / slope;
    r -= change;
    if (Math.abs(change) <= closeEnough * bent) return [(x * r) / bent, (y * r) / bent];
  }
  throw new NumericalError("lens: the picture folds there");
}
