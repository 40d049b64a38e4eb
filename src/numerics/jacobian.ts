/** Writes the residuals at the parameters into `out`. */
export type ResidualFunction = (parameters: Float64Array, out: Float64Array) => void;

/**
 * Jacobian ∂r_i/∂p_k, points × parameters, by five-point central differences: (8(f₊₁ − f₋₁) − (f₊₂ − f₋₂))/(12h) with
 * h = size_k/2^13. Unit: residual over parameter. Valid: residuals smooth over size_k/4096.
 * Returns null where a value is not finite. Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 25.3.6.
 */
export function quickJacobian(
  residuals: ResidualFunction,
  p: Float64Array,
  sizes: Float64Array,
  points: number,
): Float64Array | null {
  const n = p.length;
  const out = new Float64Array(points * n);
  for (let k = 0; k < n; k += 1) {
    const column = slopes(residuals, p, k, stepOf(sizes[k]!, 13), points);
    if (!column.every(Number.isFinite)) return null;
    for (let i = 0; i < points; i += 1) out[i * n + k] = column[i]!;
  }
  return out;
}

/**
 * As `quickJacobian`, with the step of each parameter chosen: of h = size_k/2^7, 2^10 … 2^19 the one whose slopes agree
 * best with those of the step before. Relative error about 1e-11 also where a model turns within 1 % of a parameter.
 */
export function carefulJacobian(
  residuals: ResidualFunction,
  p: Float64Array,
  sizes: Float64Array,
  points: number,
): Float64Array | null {
  const n = p.length;
  const out = new Float64Array(points * n);
  for (let k = 0; k < n; k += 1) {
    let before = slopes(residuals, p, k, stepOf(sizes[k]!, 7), points);
    let best: Float64Array | null = null;
    let least = Number.POSITIVE_INFINITY;
    for (const fineness of [10, 13, 16, 19]) {
      const now = slopes(residuals, p, k, stepOf(sizes[k]!, fineness), points);
      let apart = 0;
      for (let i = 0; i < points; i += 1) apart += (now[i]! - before[i]!) ** 2;
      if (apart < least) {
        least = apart;
        best = now;
      }
      before = now;
    }
    if (best === null || !best.every(Number.isFinite)) return null;
    for (let i = 0; i < points; i += 1) out[i * n + k] = best[i]!;
  }
  return out;
}

/** A power of 2, so that p ± h is not rounded more than it must. */
const stepOf = (size: number, fineness: number): number => 2 ** (Math.round(Math.log2(size)) - fineness);

function slopes(residuals: ResidualFunction, p: Float64Array, k: number, h: number, points: number): Float64Array {
  const at = Float64Array.from(p);
  const value = (multiple: number): Float64Array => {
    at[k] = p[k]! + multiple * h;
    const out = new Float64Array(points);
    residuals(at, out);
    return out;
  };
  const [far, near, nearUp, farUp] = [value(-2), value(-1), value(1), value(2)];
  // In pairs, so that a parameter without effect has a slope of exactly 0.
  return near.map((_, i) => (8 * (nearUp[i]! - near[i]!) - (farUp[i]! - far[i]!)) / (12 * h));
}
