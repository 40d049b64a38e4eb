import { normalCdf } from "#numerics";
import { coefficientCount, discrepancySlope, type EdgePrior, writeCoefficients } from "./prior.ts";

/** Graded patches of one edge: rows of [score, g_dose, g_overlap, g_passes, g_time] and what was seen (+1 yes, −1 no). */
export interface EdgeData {
  readonly rows: Float64Array;
  readonly seen: Float64Array;
}

export const rowLength = 5;
const inverseRootTwoPi = 1 / Math.sqrt(2 * Math.PI);

/**
 * Chance of a grade under the probit with lapse: p = lapse/2 + (1 − lapse)·Φ(z).
 * `z`: probit score signed towards the grade seen, 1; `lapse`: share of patches graded by a coin, 0 to 1; result 1.
 * Throws nothing. Source: definition; a 2 % mis-grading rate is own choice.
 */
export function gradeProbability(z: number, lapse: number): number {
  return lapse / 2 + (1 - lapse) * normalCdf(z);
}

/** Log posterior density of one edge in the coordinates u, with its gradient written into `gradient`. */
export type LogDensity = (u: Float64Array, gradient: Float64Array) => number;

/**
 * ln posterior(u) = −½ Σ u² + Σ_i ln p(y_i | z_i), z = a + b·score + Σ c_k g_k (constant left out).
 * All arguments dimensionless; result natural logarithm. Any finite u. Throws nothing. Source: Bayes' rule.
 */
export function edgeLogDensity(prior: EdgePrior, data: EdgeData, lapse: number): LogDensity {
  const coefficients = new Float64Array(coefficientCount);
  const count = data.seen.length;
  return (u, gradient) => {
    writeCoefficients(prior, u, coefficients);
    const [a, b, c0, c1, c2, c3] = coefficients as unknown as [number, number, number, number, number, number];
    let logDensity = 0;
    let sumOffset = 0;
    let sumScore = 0;
    let sum0 = 0;
    let sum1 = 0;
    let sum2 = 0;
    let sum3 = 0;
    for (let i = 0, r = 0; i < count; i++, r += rowLength) {
      const { rows } = data;
      const score = rows[r]!;
      const z = a + b * score + c0 * rows[r + 1]! + c1 * rows[r + 2]! + c2 * rows[r + 3]! + c3 * rows[r + 4]!;
      const y = data.seen[i]!;
      const p = gradeProbability(y * z, lapse);
      logDensity += Math.log(p);
      const slope = (y * (1 - lapse) * inverseRootTwoPi * Math.exp(-0.5 * z * z)) / p;
      sumOffset += slope;
      sumScore += slope * score;
      sum0 += slope * rows[r + 1]!;
      sum1 += slope * rows[r + 2]!;
      sum2 += slope * rows[r + 3]!;
      sum3 += slope * rows[r + 4]!;
    }
    gradient[0] = prior.offsetSpread * sumOffset;
    gradient[1] = prior.logSlopeSpread * b * sumScore;
    gradient[2] = discrepancySlope(prior, 0, u[2]!, c0) * sum0;
    gradient[3] = discrepancySlope(prior, 1, u[3]!, c1) * sum1;
    gradient[4] = discrepancySlope(prior, 2, u[4]!, c2) * sum2;
    gradient[5] = discrepancySlope(prior, 3, u[5]!, c3) * sum3;
    for (let k = 0; k < coefficientCount; k++) {
      logDensity -= 0.5 * u[k]! * u[k]!;
      gradient[k] = gradient[k]! - u[k]!;
    }
    return logDensity;
  };
}
