import { adjugate3, type Matrix3, NumericalError, symmetricEigen } from "#numerics";

/** Nine entries, row by row: (x, y, 1) goes to (h0·x + h1·y + h2, h3·x + h4·y + h5) / (h6·x + h7·y + h8). */
export type Homography = Matrix3;

type Pair = readonly [number, number];

/** Image of a point under a homography; units of the target. Range: points in front of the camera. */
export function applyHomography(h: Homography, x: number, y: number): [number, number] {
  const w = h[6] * x + h[7] * y + h[8];
  return [(h[0] * x + h[1] * y + h[2]) / w, (h[3] * x + h[4] * y + h[5]) / w];
}

/** a·b. */
export function compose(a: Homography, b: Homography): Homography {
  const at = (i: number): number => {
    const row = 3 * Math.floor(i / 3);
    const column = i % 3;
    return a[row]! * b[column]! + a[row + 1]! * b[column + 3]! + a[row + 2]! * b[column + 6]!;
  };
  return [at(0), at(1), at(2), at(3), at(4), at(5), at(6), at(7), at(8)];
}

/** Inverse of a homography up to scale (its adjugate). Errors: NumericalError when it maps the plane onto a line. */
export function invertHomography(h: Homography): Homography {
  const { adjugate, determinant } = adjugate3(h);
  const size = Math.hypot(...h);
  if (!(Math.abs(determinant) > 1e-14 * size ** 3)) throw new NumericalError("homography: the plane is seen edge-on");
  return adjugate;
}

/** Moves points to their centre and to a mean distance √2 from it, so that no entry of the equations outweighs another. */
function normaliser(points: readonly Pair[]): Homography {
  const n = points.length;
  const cx = points.reduce((sum, [x]) => sum + x, 0) / n;
  const cy = points.reduce((sum, [, y]) => sum + y, 0) / n;
  const distance = points.reduce((sum, [x, y]) => sum + Math.hypot(x - cx, y - cy), 0) / n;
  if (!(distance > 0)) throw new NumericalError("homography: the points are one point");
  const s = Math.SQRT2 / distance;
  return [s, 0, -s * cx, 0, s, -s * cy, 0, 0, 1];
}

/**
 * Homography from pairs of points by the normalised direct linear transform: the unit vector h that makes Σ |A_i·h|² least,
 * A_i the two rows of x' × H·x = 0 for normalised points; scaled so that its last entry is 1 where that is possible.
 * from, to: any unit, four pairs or more, no three of any four on a line. Exact for exact pairs, else an algebraic and
 * not yet the best estimate. Errors: NumericalError for pairs that do not settle it.
 * Source: Hartley and Zisserman, Multiple View Geometry, 2nd ed. (2003), algorithm 4.2.
 */
export function estimateHomography(from: readonly Pair[], to: readonly Pair[]): Homography {
  if (from.length !== to.length || from.length < 4) throw new NumericalError("homography: needs at least four pairs");
  const tFrom = normaliser(from);
  const tTo = normaliser(to);
  const square = new Float64Array(81);
  from.forEach((point, i) => {
    const [x, y] = applyHomography(tFrom, point[0], point[1]);
    const [u, v] = applyHomography(tTo, to[i]![0], to[i]![1]);
    for (const row of [
      [0, 0, 0, -x, -y, -1, v * x, v * y, v],
      [x, y, 1, 0, 0, 0, -u * x, -u * y, -u],
    ]) {
      for (let j = 0; j < 9; j += 1) for (let k = 0; k < 9; k += 1) square[9 * j + k]! += row[j]! * row[k]!;
    }
  });
  const { values, vectors } = symmetricEigen(square, 9);
  if (!(values[1]! > 1e-9 * values[8]!)) throw new NumericalError("homography: the pairs lie on a line");
  const h = Array.from({ length: 9 }, (_, k) => vectors[9 * k]!) as unknown as Homography;
  const out = compose(invertHomography(tTo), compose(h, tFrom));
  const size = Math.hypot(...out);
  const unit = Math.abs(out[8]) > 1e-12 * size ? out[8] : size;
  return out.map((entry) => entry / unit) as unknown as Homography;
}
