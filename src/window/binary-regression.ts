import { cholesky, choleskyInverse, choleskyLogDeterminant, NumericalError, solveCholesky } from "#numerics";
import { invalid, requireFinite, requireInteger } from "#units";
import { type Link, links } from "./links.ts";

export interface BinaryData {
  /** one row of explanatory values per group of trials; a leading 1 stands for the constant and is not added */
  readonly rows: readonly (readonly number[])[];
  readonly successes: readonly number[];
  /** trials of each row; 1 each when left out */
  readonly trials?: readonly number[];
}

export interface BinaryFit {
  readonly coefficients: readonly number[];
  readonly standardErrors: readonly number[];
  readonly covariance: readonly (readonly number[])[];
  readonly deviance: number;
  readonly converged: boolean;
  /** true when the outcomes split cleanly, so that no finite maximum exists and the numbers mean nothing */
  readonly separated: boolean;
  readonly iterations: number;
}

const iterationsMax = 200;
const clip = 1e-12;

/**
 * Binary regression by Fisher scoring, β ← β + (X'WX)⁻¹ X'(score), optionally with Firth's reduction of bias, whose
 * adjusted score adds ½·h_i·(d²μ/dη²)/(dμ/dη) to the working score of each row (h: leverages). An independent check
 * on the Bayesian window; not used for recommendations. Units: those of the rows; deviance dimensionless.
 * Throws InvalidInput on counts that do not fit, values not finite, or columns that depend on each other.
 * Sources: McCullagh and Nelder (1989); Firth, Biometrika 80 (1993); Kosmidis and Firth, Biometrika 96 (2009).
 */
export function fitBinary(data: BinaryData, link: keyof typeof links, firth = false): BinaryFit {
  const trials = data.trials ?? data.rows.map(() => 1);
  checkData(data, trials);
  const width = data.rows[0]!.length;
  const scales = Array.from({ length: width }, (_, j) => scaleOf(data.rows, j));
  // Columns are scaled to a largest value of 1, so that the information matrix stays well conditioned.
  const rows = data.rows.map((row) => row.map((value, j) => value / scales[j]!));
  const shape = links[link];
  let beta: number[] = new Array<number>(width).fill(0);
  const start = tryEvaluate(rows, data.successes, trials, beta, shape, firth);
  let state = start ?? invalid("columns", width, "", "must not depend on each other");
  let converged = false;
  let iterations = 0;
  while (!converged && iterations < iterationsMax) {
    iterations++;
    const step = solveCholesky(state.factor, width, state.score);
    let scale = 1;
    let next = state;
    let trial = beta;
    for (let halving = 0; halving < 30; halving++, scale /= 2) {
      trial = beta.map((b, j) => b + scale * step[j]!);
      const attempt = tryEvaluate(rows, data.successes, trials, trial, shape, firth);
      // Away from the logit Firth's adjusted score is not the slope of a known objective: any sound step is taken.
      const slack = firth && link !== "logit" ? Number.POSITIVE_INFINITY : 1e-9 * Math.abs(state.objective) + 1e-12;
      if (attempt !== null && attempt.objective >= state.objective - slack) {
        next = attempt;
        break;
      }
    }
    const size = Math.max(...trial.map((b, j) => Math.abs(b - beta[j]!) / (1e-8 + Math.abs(b))));
    if (next === state) break;
    beta = trial;
    state = next;
    converged = size < 1e-11;
    if (!firth && state.deviance < 1e-8) break;
  }
  const separated = !firth && (state.deviance < 1e-6 || (!converged && state.scoreRange > 20));
  const inverse = choleskyInverse(state.factor, width);
  const covariance = scales.map((a, j) => scales.map((b, k) => inverse[j * width + k]! / (a * b)));
  return {
    coefficients: beta.map((b, j) => b / scales[j]!),
    standardErrors: covariance.map((row, j) => Math.sqrt(row[j]!)),
    covariance,
    deviance: state.deviance,
    converged: converged && !separated,
    separated,
    iterations,
  };
}

/** Logistic regression, see `fitBinary`. */
export const fitLogit = (data: BinaryData, firth = false): BinaryFit => fitBinary(data, "logit", firth);
/** Probit regression, see `fitBinary`. */
export const fitProbit = (data: BinaryData, firth = false): BinaryFit => fitBinary(data, "probit", firth);
/** Complementary log-log regression, see `fitBinary`. */
export const fitCloglog = (data: BinaryData, firth = false): BinaryFit => fitBinary(data, "cloglog", firth);

interface State {
  readonly factor: Float64Array;
  readonly score: number[];
  readonly objective: number;
  readonly deviance: number;
  readonly scoreRange: number;
}

function tryEvaluate(...args: Parameters<typeof evaluate>): State | null {
  try {
    return evaluate(...args);
  } catch (error) {
    // An information matrix that is no longer positive definite tells that the step went too far.
    if (error instanceof NumericalError) return null;
    throw error;
  }
}

function evaluate(
  rows: readonly (readonly number[])[],
  successes: readonly number[],
  trials: readonly number[],
  beta: readonly number[],
  link: Link,
  firth: boolean,
): State {
  const width = beta.length;
  const information = new Float64Array(width * width);
  const score = new Array<number>(width).fill(0);
  let logLikelihood = 0;
  let deviance = 0;
  let scoreRange = 0;
  const weights: number[] = [];
  const bends: number[] = [];
  rows.forEach((row, i) => {
    const eta = row.reduce((sum, value, j) => sum + value * beta[j]!, 0);
    scoreRange = Math.max(scoreRange, Math.abs(eta));
    const mean = Math.max(clip, link.mean(eta));
    const rest = Math.max(clip, link.complement(eta));
    const slope = Math.max(1e-300, link.slope(eta));
    const y = successes[i]!;
    const m = trials[i]!;
    const weight = (m * slope * slope) / (mean * rest);
    weights.push(weight);
    bends.push(link.bend(eta));
    const residual = ((y - m * mean) * slope) / (mean * rest);
    for (let j = 0; j < width; j++) {
      score[j] = score[j]! + residual * row[j]!;
      for (let k = 0; k < width; k++) information[j * width + k]! += weight * row[j]! * row[k]!;
    }
    logLikelihood += y * Math.log(mean) + (m - y) * Math.log(rest);
    if (y > 0) deviance += 2 * y * Math.log(y / (m * mean));
    if (y < m) deviance += 2 * (m - y) * Math.log((m - y) / (m * rest));
  });
  const factor = cholesky(information, width);
  let objective = logLikelihood;
  if (firth) {
    rows.forEach((row, i) => {
      const solved = solveCholesky(factor, width, row);
      const leverage = weights[i]! * row.reduce((sum, value, j) => sum + value * solved[j]!, 0);
      const shift = 0.5 * leverage * bends[i]!;
      for (let j = 0; j < width; j++) score[j] = score[j]! + shift * row[j]!;
    });
    // ½ ln det of the information: the penalty that the adjusted logit score is the slope of.
    objective += 0.5 * choleskyLogDeterminant(factor, width);
  }
  return { factor, score, objective, deviance, scoreRange };
}

function scaleOf(rows: readonly (readonly number[])[], column: number): number {
  let largest = 0;
  for (const row of rows) largest = Math.max(largest, Math.abs(row[column]!));
  return largest > 0 ? largest : 1;
}

function checkData(data: BinaryData, trials: readonly number[]): void {
  const { rows, successes } = data;
  if (rows.length === 0) invalid("rows", 0, "", "at least one row");
  if (successes.length !== rows.length) invalid("successes", successes.length, "", "one per row");
  if (trials.length !== rows.length) invalid("trials", trials.length, "", "one per row");
  const width = rows[0]!.length;
  if (width === 0) invalid("rows", 0, "", "at least one column");
  rows.forEach((row, i) => {
    if (row.length !== width) invalid(`row ${i + 1}`, row.length, "columns", `must be ${width}`);
    for (const value of row) requireFinite(`row ${i + 1}`, value);
    requireInteger(`trials of row ${i + 1}`, trials[i], 1);
    requireInteger(`successes of row ${i + 1}`, successes[i], 0, trials[i]);
  });
}
