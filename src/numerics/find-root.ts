import { demand, NumericalError } from "./numerical-error.ts";

export interface RootOptions {
  /** wanted absolute error of x, unit of x; the limit of the arithmetic is added */
  readonly tolerance?: number;
  readonly maxIterations?: number;
}

/**
 * x with f(x) = 0 between low and high, where f changes its sign, by Brent's method (bisection, secant, inverse
 * quadratic). Unit of x: that of the limits. Source: brent-1973.
 * @throws NumericalError when f has one sign at both ends, is not a number, or the iterations do not suffice
 */
export function findRoot(f: (x: number) => number, low: number, high: number, options: RootOptions = {}): number {
  const { tolerance = 0, maxIterations = 200 } = options;
  let a = low;
  let b = high;
  let fa = f(a);
  let fb = f(b);
  demand(!Number.isNaN(fa) && !Number.isNaN(fb), "findRoot: the function is not a number at an end");
  if (fa === 0) return a;
  if (fb === 0) return b;
  demand(fa > 0 !== fb > 0, `findRoot: no change of sign between ${low} and ${high}`);
  let c = a;
  let fc = fa;
  let step = b - a;
  let before = step;
  for (let turn = 0; turn < maxIterations; turn += 1) {
    if (fb > 0 === fc > 0) {
      c = a;
      fc = fa;
      step = b - a;
      before = step;
    }
    if (Math.abs(fc) < Math.abs(fb)) {
      [a, b, c] = [b, c, b];
      [fa, fb, fc] = [fb, fc, fb];
    }
    const reach = 2 * Number.EPSILON * Math.abs(b) + 0.5 * tolerance;
    const half = 0.5 * (c - b);
    if (Math.abs(half) <= reach || fb === 0) return b;
    if (Math.abs(before) < reach || Math.abs(fa) <= Math.abs(fb)) {
      step = half;
      before = half;
    } else {
      const s = fb / fa;
      let p: number;
      let q: number;
      if (a === c) {
        p = 2 * half * s;
        q = 1 - s;
      } else {
        const u = fa / fc;
        const v = fb / fc;
        p = s * (2 * half * u * (u - v) - (b - a) * (v - 1));
        q = (u - 1) * (v - 1) * (s - 1);
      }
      if (p > 0) q = -q;
      else p = -p;
      if (2 * p < Math.min(3 * half * q - Math.abs(reach * q), Math.abs(before * q))) {
        before = step;
        step = p / q;
      } else {
        step = half;
        before = half;
      }
    }
    a = b;
    fa = fb;
    b += Math.abs(step) > reach ? step : half > 0 ? reach : -reach;
    fb = f(b);
    demand(!Number.isNaN(fb), `findRoot: the function is not a number at ${b}`);
  }
  throw new NumericalError(`findRoot: no convergence in ${maxIterations} iterations between ${low} and ${high}`);
}
