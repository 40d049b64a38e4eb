import { cholesky, identity, solveCholesky } from "#numerics";
import { coefficientCount, discrepancySlope, type EdgePrior, writeCoefficients } from "./prior.ts";
import { type EdgeData, type LogDensity, rowLength } from "./edge-density.ts";

/**
 * Highest point of a log density by gradient ascent with a limited step and halving; good enough to start chains
 * and to scale them, never reported as an answer.
 */
export function findMode(density: LogDensity, data: EdgeData, prior: EdgePrior): Float64Array {
  const n = coefficientCount;
  let u: Float64Array = new Float64Array(n);
  const gradient = new Float64Array(n);
  let value = density(u, gradient);
  for (let round = 0; round < 40; round++) {
    const lower = cholesky(informationAt(u, data, prior), n);
    const step = solveCholesky(lower, n, gradient);
    let scale = 1;
    let moved = false;
    for (let halving = 0; halving < 12; halving++, scale /= 2) {
      const trial = new Float64Array(n);
      for (let k = 0; k < n; k++) {
        trial[k] = u[k]! + scale * step[k]!;
      }
      const trialGradient = new Float64Array(n);
      const trialValue = density(trial, trialGradient);
      if (trialValue > value) {
        moved = trialValue > value + 1e-9;
        u = trial;
        value = trialValue;
        gradient.set(trialGradient);
        break;
      }
    }
    if (!moved) break;
  }
  return u;
}

/** Expected information of the probit at u plus the unit prior: a symmetric matrix, row by row. */
export function informationAt(u: Float64Array, data: EdgeData, prior: EdgePrior): Float64Array {
  const n = coefficientCount;
  const matrix = identity(n);
  const c = new Float64Array(n);
  writeCoefficients(prior, u, c);
  const jacobian = new Float64Array(n);
  const slopes = [0, 1, 2, 3].map((k) => discrepancySlope(prior, k, u[2 + k]!, c[2 + k]!));
  for (let i = 0, r = 0; i < data.seen.length; i++, r += rowLength) {
    const score = data.rows[r]!;
    let z = c[0]! + c[1]! * score;
    jacobian[0] = prior.offsetSpread;
    jacobian[1] = prior.logSlopeSpread * c[1]! * score;
    for (let k = 0; k < 4; k++) {
      const group = data.rows[r + 1 + k]!;
      jacobian[2 + k] = slopes[k]! * group;
      z += c[2 + k]! * group;
    }
    // φ²/(Φ(1−Φ)) is close to 0.64·exp(−0.36 z²): only the chains' scale rests on it.
    const weight = 0.64 * Math.exp(-0.36 * z * z);
    for (let j = 0; j < n; j++) for (let k = 0; k < n; k++) matrix[j * n + k]! += weight * jacobian[j]! * jacobian[k]!;
  }
  return matrix;
}
