import { NumericalError } from "./numerical-error.ts";

/**
 * y with F(y) = target for a distribution function F of y that is rising (or falling, when `slope` is negative),
 * by Newton steps on ln F kept inside a bracket. F and its slope are read together. Returns an end of the bracket when
 * the answer lies beyond it.
 */
export function invertMonotone(
  f: (y: number) => { readonly value: number; readonly slope: number },
  target: number,
  low: number,
  high: number,
  start: number,
): number {
  const rising = f(high).value > f(low).value;
  let a = low;
  let b = high;
  let y = Math.min(Math.max(start, low), high);
  for (let turn = 0; turn < 400; turn += 1) {
    const { value, slope } = f(y);
    if (value === target) return y;
    if (value < target === rising) a = y;
    else b = y;
    if (b - a <= 4 * Number.EPSILON * Math.max(1e-3, Math.abs(y))) return y;
    const step = value > 0 && slope !== 0 ? (Math.log(target / value) * value) / slope : Number.NaN;
    const next = y + step;
    if (Number.isFinite(next) && next > a && next < b) {
      if (Math.abs(step) <= 2 * Number.EPSILON * Math.max(1e-3, Math.abs(y))) return next;
      y = next;
    } else {
      y = 0.5 * (a + b);
    }
  }
  throw new NumericalError(`invertMonotone: no convergence for ${target}`);
}
