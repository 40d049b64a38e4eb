import { normalCdf, normalQuantile } from "#numerics";

/**
 * The weak priors of one edge, written on standard normal coordinates u so that one sampler serves all of them:
 * a = 0.8·u0, b = exp(0.645·u1), c_k = sign·0.5·h(u_k) where physics fixes the sign (h: `halfNormal`), 0.5·u_k where not.
 * Own choice of widths: b has median 1 (physics carries the shape) and 90 % between 0.35 and 2.9.
 */
export interface EdgePrior {
  /** standard deviation of the offset a, probit units */
  readonly offsetSpread: number;
  /** standard deviation of ln b */
  readonly logSlopeSpread: number;
  /** standard deviation (or half-normal scale) of c_k, probit units per doubling */
  readonly discrepancySpread: number;
  /** +1, −1: sign that physics fixes; 0: free */
  readonly signs: readonly [number, number, number, number];
}

/** a, b, c of dose, overlap, passes, time. */
export const coefficientCount = 6;

/** More dose, more overlap, more passes never leave more residue; the time of one event may go either way. */
export const cleanPrior: EdgePrior = {
  offsetSpread: 0.8,
  logSlopeSpread: 0.645,
  discrepancySpread: 0.5,
  signs: [1, 1, 1, 0],
};

/** More dose, more overlap, more passes never do less harm. */
export const undamagedPrior: EdgePrior = { ...cleanPrior, signs: [-1, -1, -1, 0] };

/**
 * Half-normal value at the same place of its distribution as u holds in the normal: h = −Φ⁻¹(Φ(−u)/2), above 0.
 * `u` and result dimensionless; any finite u down to −37, where Φ leaves the doubles. Throws nothing.
 * Folding |u| would give the same prior but mirror the posterior, which chains mix badly over. Source: inversion.
 */
export function halfNormal(u: number): number {
  return -normalQuantile(0.5 * normalCdf(-u));
}

/** dh/du = φ(u)/(2φ(h)) of `halfNormal`. */
export function halfNormalSlope(u: number, h: number): number {
  return 0.5 * Math.exp(0.5 * (h - u) * (h + u));
}

/**
 * Coefficients from unconstrained coordinates: a, b, c_1…c_4 as stated at `EdgePrior`.
 * `u`: standard normal coordinates, 1; result probit units, into `out` from `at`. Any finite u. Throws nothing.
 * The sign holds in every draw. Source: definition.
 */
export function writeCoefficients(prior: EdgePrior, u: ArrayLike<number>, out: Float64Array, at = 0): void {
  out[at] = prior.offsetSpread * u[0]!;
  out[at + 1] = Math.exp(prior.logSlopeSpread * u[1]!);
  for (let k = 0; k < 4; k++) {
    const sign = prior.signs[k]!;
    const value = u[2 + k]!;
    out[at + 2 + k] = prior.discrepancySpread * (sign === 0 ? value : sign * halfNormal(value));
  }
}

/** Derivative of c_k by its coordinate, given c_k. */
export function discrepancySlope(prior: EdgePrior, k: number, u: number, c: number): number {
  const sign = prior.signs[k]!;
  if (sign === 0) return prior.discrepancySpread;
  return sign * prior.discrepancySpread * halfNormalSlope(u, Math.abs(c) / prior.discrepancySpread);
}
