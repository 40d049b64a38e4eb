import { cholesky, normalCdf, normalLogCdf, solveLower } from "#numerics";

interface Sites {
  readonly tau: Float64Array;
  readonly nu: Float64Array;
}

/** Posterior of a Gaussian process seen through yes/no, approximated by a Gaussian. */
export interface ProbitPosterior {
  /** ln of the probability of all that was seen */
  readonly logEvidence: number;
  /** ln of the probability of each patch given all others */
  readonly leaveOneOut: Float64Array;
  /** mean and variance of the latent at a new place, from its covariances with the patches and its own variance */
  /** precision and shifted mean of each site, to begin a neighbouring fit with */
  readonly sites: Sites;
  latent(covariances: Float64Array, own: number): { readonly mean: number; readonly variance: number };
}

const sweepsMax = 100;

/**
 * Probit classification, P(y_i | f) = Φ(s_i·f_i) with s = ±1 and f normal of mean 0 and covariance K, by expectation
 * propagation: each factor is replaced by a Gaussian site whose moments match with the others in place, in turn until
 * no site moves by more than 1e-6.
 * @param k covariance (1), n × n row-major, positive semidefinite
 * @param seen n outcomes
 * @param start sites of a fit with another K to begin with
 * Valid: n to some hundreds (time n³ a sweep). Throws nothing for such K; NumericalError where K is none.
 * Source: Rasmussen and Williams, Gaussian Processes for Machine Learning (2006), 3.6.
 */
export function probitPosterior(k: Float64Array, seen: readonly boolean[], start?: Sites): ProbitPosterior {
  const n = seen.length;
  const sign = seen.map((yes) => (yes ? 1 : -1));
  const tau = start ? Float64Array.from(start.tau) : new Float64Array(n);
  const nu = start ? Float64Array.from(start.nu) : new Float64Array(n);
  let state = posterior(k, tau, nu, n);
  let moved = 1;
  for (let sweep = 0; sweep < sweepsMax && moved > 1e-6; sweep++) {
    const { sigma, mu } = state;
    moved = 0;
    for (let i = 0; i < n; i++) {
      const variance = sigma[i * n + i]!;
      const cavity = cavityOf(variance, mu[i]!, tau[i]!, nu[i]!);
      const { ratio, z } = hazard(cavity, sign[i]!);
      const root = Math.sqrt(1 + cavity.variance);
      const mean = cavity.mean + (sign[i]! * cavity.variance * ratio) / root;
      const shrunk = cavity.variance - (cavity.variance ** 2 * ratio * (z + ratio)) / (1 + cavity.variance);
      const wanted = Math.max(0, 1 / shrunk - 1 / cavity.variance);
      const site = mean / shrunk - cavity.mean / cavity.variance;
      const change = wanted - tau[i]!;
      const push = site - nu[i]!;
      tau[i] = wanted;
      nu[i] = site;
      moved = Math.max(moved, Math.abs(change), Math.abs(push));
      moveSite(sigma, mu, n, i, change / (1 + change * variance), push);
    }
    // From scratch now and then: updates of rank one collect rounding.
    if (sweep % 8 === 7) state = posterior(k, tau, nu, n);
  }
  state = posterior(k, tau, nu, n);
  const logEvidence = evidence(state, tau, nu, sign);
  const leaveOneOut = Float64Array.from(sign, (s, i) =>
    normalLogCdf(hazard(cavityOf(state.sigma[i * n + i]!, state.mu[i]!, tau[i]!, nu[i]!), s).z),
  );
  return {
    logEvidence,
    leaveOneOut,
    sites: { tau, nu },
    latent: (covariances, own) => {
      const scaled = covariances.map((value, i) => value * Math.sqrt(tau[i]!));
      const half = solveLower(state.factor, n, scaled);
      let mean = 0;
      let explained = 0;
      for (let i = 0; i < n; i++) {
        mean += covariances[i]! * state.weights[i]!;
        explained += half[i]! * half[i]!;
      }
      return { mean, variance: Math.max(0, own - explained) };
    },
  };
}

interface Posterior {
  readonly sigma: Float64Array;
  readonly mu: Float64Array;
  /** Cholesky factor of 1 + τ^½·K·τ^½ */
  readonly factor: Float64Array;
  /** K⁻¹·mu */
  readonly weights: Float64Array;
}

/** Covariance and mean of the latent under the sites. */
function posterior(k: Float64Array, tau: Float64Array, nu: Float64Array, n: number): Posterior {
  const root = tau.map(Math.sqrt);
  const b = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) b[i * n + j] = root[i]! * k[i * n + j]! * root[j]! + (i === j ? 1 : 0);
  }
  const factor = cholesky(b, n);
  // V = L⁻¹·τ^½·K by forward substitution row by row; Σ = K − VᵀV.
  const v = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    const row = v.subarray(i * n, (i + 1) * n);
    for (let j = 0; j < n; j++) row[j] = root[i]! * k[i * n + j]!;
    for (let m = 0; m < i; m++) {
      const weight = factor[i * n + m]!;
      const above = v.subarray(m * n, (m + 1) * n);
      for (let j = 0; j < n; j++) row[j]! -= weight * above[j]!;
    }
    const pivot = factor[i * n + i]!;
    for (let j = 0; j < n; j++) row[j]! /= pivot;
  }
  const sigma = Float64Array.from(k);
  for (let m = 0; m < n; m++) {
    const row = v.subarray(m * n, (m + 1) * n);
    for (let i = 0; i < n; i++) {
      const weight = row[i]!;
      if (weight === 0) continue;
      for (let j = i; j < n; j++) sigma[i * n + j]! -= weight * row[j]!;
    }
  }
  for (let i = 1; i < n; i++) for (let j = 0; j < i; j++) sigma[i * n + j] = sigma[j * n + i]!;
  const mu = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let sum = 0;
    for (let j = 0; j < n; j++) sum += sigma[i * n + j]! * nu[j]!;
    mu[i] = sum;
  }
  return { sigma, mu, factor, weights: mu.map((value, i) => nu[i]! - tau[i]! * value) };
}

interface Cavity {
  readonly mean: number;
  readonly variance: number;
}

function cavityOf(variance: number, mean: number, tau: number, nu: number): Cavity {
  const precision = 1 / variance - tau;
  return { mean: (mean / variance - nu) / precision, variance: 1 / precision };
}

/** z = s·m/√(1 + v) and φ(z)/Φ(z), from logarithms: both vanish far out. */
function hazard({ mean, variance }: Cavity, sign: number): { readonly z: number; readonly ratio: number } {
  const z = (sign * mean) / Math.sqrt(1 + variance);
  return { z, ratio: Math.exp(-0.5 * z * z - 0.5 * Math.log(2 * Math.PI) - normalLogCdf(z)) };
}

/** Covariance and mean after site i changed: Σ − w·s·sᵀ with s the column of i, and Σ·ν with ν_i pushed. */
function moveSite(sigma: Float64Array, mu: Float64Array, n: number, i: number, weight: number, push: number): void {
  const column = sigma.slice(i * n, (i + 1) * n);
  const pull = push * (1 - weight * column[i]!) - weight * mu[i]!;
  for (let a = 0; a < n; a++) {
    mu[a]! += pull * column[a]!;
    const factor = weight * column[a]!;
    if (factor === 0) continue;
    for (let b = 0; b < n; b++) sigma[a * n + b]! -= factor * column[b]!;
  }
}

/** ln Z of the sites, terms paired so that sites of no weight do no harm. */
function evidence(state: Posterior, tau: Float64Array, nu: Float64Array, sign: readonly number[]): number {
  const n = sign.length;
  let sum = 0;
  for (let i = 0; i < n; i++) {
    const cavity = cavityOf(state.sigma[i * n + i]!, state.mu[i]!, tau[i]!, nu[i]!);
    const precision = 1 / cavity.variance;
    sum += normalLogCdf(hazard(cavity, sign[i]!).z);
    sum += 0.5 * Math.log1p(tau[i]! / precision) - Math.log(state.factor[i * n + i]!);
    sum += 0.5 * nu[i]! * state.mu[i]! - (0.5 * nu[i]! ** 2) / (tau[i]! + precision);
    sum += (0.5 * cavity.mean * precision * (tau[i]! * cavity.mean - 2 * nu[i]!)) / (tau[i]! + precision);
  }
  return sum;
}

/** P(yes) where the latent is normal: Φ(m/√(1 + v)). Mean and variance (1); result 0 to 1 (1). Throws nothing. */
export function probitShare(mean: number, variance: number): number {
  return normalCdf(mean / Math.sqrt(1 + variance));
}
