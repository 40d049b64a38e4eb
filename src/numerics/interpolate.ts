import { demand } from "./numerical-error.ts";

/**
 * Index i with xs[i] ≤ x < xs[i + 1], held within 0 to n − 2. xs ascending, at least two points; same unit as x.
 */
export function findInterval(xs: ArrayLike<number>, x: number): number {
  let low = 0;
  let high = xs.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (xs[middle]! <= x) low = middle;
    else high = middle;
  }
  return low;
}

/**
 * Straight lines between the points, constant beyond the ends. xs ascending (any unit), ys as long (any unit), x in
 * the unit of xs; result in the unit of ys. One point gives a constant.
 */
export function interpolateLinear(xs: ArrayLike<number>, ys: ArrayLike<number>, x: number): number {
  const last = xs.length - 1;
  if (last === 0 || x <= xs[0]!) return ys[0]!;
  if (x >= xs[last]!) return ys[last]!;
  const i = findInterval(xs, x);
  const share = (x - xs[i]!) / (xs[i + 1]! - xs[i]!);
  return ys[i]! + share * (ys[i + 1]! - ys[i]!);
}

/**
 * Cubic through the points that keeps their rise and fall; constant beyond the ends. xs strictly ascending.
 * Source: fritsch-carlson-1980, with three-point weighted harmonic slopes.
 * @throws NumericalError for fewer than two points, unequal lengths or xs that do not ascend
 */
export function monotoneCubic(xs: ArrayLike<number>, ys: ArrayLike<number>): (x: number) => number {
  const n = xs.length;
  demand(n >= 2 && ys.length === n, "monotoneCubic: needs two or more points, as many ys as xs");
  const x = Float64Array.from(xs);
  const y = Float64Array.from(ys);
  const step = new Float64Array(n - 1);
  const chord = new Float64Array(n - 1);
  for (let i = 0; i < n - 1; i += 1) {
    step[i] = x[i + 1]! - x[i]!;
    demand(step[i]! > 0, "monotoneCubic: xs must ascend");
    chord[i] = (y[i + 1]! - y[i]!) / step[i]!;
  }
  const slope = new Float64Array(n);
  for (let i = 1; i < n - 1; i += 1) {
    if (chord[i - 1]! * chord[i]! > 0) {
      const before = 2 * step[i]! + step[i - 1]!;
      const after = step[i]! + 2 * step[i - 1]!;
      slope[i] = (before + after) / (before / chord[i - 1]! + after / chord[i]!);
    }
  }
  slope[0] = n === 2 ? chord[0]! : endSlope(step[0]!, step[1]!, chord[0]!, chord[1]!);
  slope[n - 1] = n === 2 ? chord[0]! : endSlope(step[n - 2]!, step[n - 3]!, chord[n - 2]!, chord[n - 3]!);

  return (at) => {
    if (at <= x[0]!) return y[0]!;
    if (at >= x[n - 1]!) return y[n - 1]!;
    const i = findInterval(x, at);
    const h = step[i]!;
    const t = (at - x[i]!) / h;
    const u = 1 - t;
    return (
      u * u * ((1 + 2 * t) * y[i]! + t * h * slope[i]!) + t * t * ((1 + 2 * u) * y[i + 1]! - u * h * slope[i + 1]!)
    );
  };
}

/** One-sided three-point slope, cut back where it would overshoot. */
function endSlope(near: number, next: number, chordNear: number, chordNext: number): number {
  const slope = ((2 * near + next) * chordNear - near * chordNext) / (near + next);
  if (slope * chordNear <= 0) return 0;
  if (chordNear * chordNext <= 0 && Math.abs(slope) > 3 * Math.abs(chordNear)) return 3 * chordNear;
  return slope;
}
