import { demand } from "./numerical-error.ts";

export interface Minimum {
  readonly x: number;
  readonly value: number;
}

const golden = (3 - Math.sqrt(5)) / 2;

/**
 * A local minimum of f between low and high by golden section and parabolas. The error of x is about `tolerance` times
 * |x| (not below 1.5e-8, where f no longer changes). Unit of x: that of the limits. Values of f that are not a number
 * count as infinite. Source: brent-1973.
 * @throws NumericalError when low is not below high
 */
export function minimise1d(
  f: (x: number) => number,
  low: number,
  high: number,
  options: { readonly tolerance?: number; readonly maxIterations?: number } = {},
): Minimum {
  const { tolerance = 1.5e-8, maxIterations = 200 } = options;
  demand(
    low < high && Number.isFinite(low) && Number.isFinite(high),
    `minimise1d: low must be below high, got ${low} and ${high}`,
  );
  const at = (x: number): number => {
    const value = f(x);
    return Number.isNaN(value) ? Infinity : value;
  };
  let a = low;
  let b = high;
  let x = a + golden * (b - a);
  let fx = at(x);
  let [w, v, fw, fv] = [x, x, fx, fx];
  let step = 0;
  let before = 0;
  for (let turn = 0; turn < maxIterations; turn += 1) {
    const middle = 0.5 * (a + b);
    const reach = tolerance * Math.abs(x) + 1e-12 * (high - low);
    if (Math.abs(x - middle) <= 2 * reach - 0.5 * (b - a)) break;
    let parabola = false;
    if (Math.abs(before) > reach) {
      const r = (x - w) * (fx - fv);
      let q = (x - v) * (fx - fw);
      let p = (x - v) * q - (x - w) * r;
      q = 2 * (q - r);
      if (q > 0) p = -p;
      else q = -q;
      if (Math.abs(p) < Math.abs(0.5 * q * before) && p > q * (a - x) && p < q * (b - x)) {
        before = step;
        step = p / q;
        const u = x + step;
        if (u - a < 2 * reach || b - u < 2 * reach) step = x < middle ? reach : -reach;
        parabola = true;
      }
    }
    if (!parabola) {
      before = (x < middle ? b : a) - x;
      step = golden * before;
    }
    const u = x + (Math.abs(step) >= reach ? step : step > 0 ? reach : -reach);
    const fu = at(u);
    if (fu <= fx) {
      if (u < x) b = x;
      else a = x;
      [v, w, x, fv, fw, fx] = [w, x, u, fw, fx, fu];
    } else {
      if (u < x) a = u;
      else b = u;
      if (fu <= fw || w === x) [v, w, fv, fw] = [w, u, fw, fu];
      else if (fu <= fv || v === x || v === w) [v, fv] = [u, fu];
    }
  }
  return { x, value: fx };
}
