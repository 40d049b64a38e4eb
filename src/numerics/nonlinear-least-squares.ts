import { carefulJacobian, quickJacobian, type ResidualFunction } from "./jacobian.ts";
import { qrSolve } from "./least-squares.ts";
import { demand, NumericalError } from "./numerical-error.ts";
import { createRandom } from "./random.ts";

export interface NonlinearProblem {
  /** residuals at the parameters; weights, where there are any, are inside them */
  readonly residuals: ResidualFunction;
  /** number of residuals */
  readonly points: number;
  readonly start: readonly number[];
  /** sizes at which a parameter makes a difference, for those that may pass through 0; their own size when left out */
  readonly sizes?: readonly number[];
  /** starts at most, the given one first; 1 when left out */
  readonly starts?: number;
}

export interface NonlinearFit {
  readonly parameters: Float64Array;
  /** standard errors of the parameters; zeros when points = parameters */
  readonly standardErrors: Float64Array;
  /** parameters × parameters, row-major */
  readonly covariance: Float64Array;
  readonly residuals: Float64Array;
  /** Σ residual² */
  readonly sumOfSquares: number;
  /** √(Σ residual²/(points − parameters)) */
  readonly residualDeviation: number;
  readonly degreesOfFreedom: number;
  /** length of the residuals' part that the parameters could still take away, over their length: 0 at a minimum */
  readonly relativeOffset: number;
  /** which start it came from, 0 for the given one */
  readonly start: number;
}

/** relative offset below which a place counts as a minimum */
const atMinimum = 1e-4;

interface Place {
  readonly p: Float64Array;
  readonly r: Float64Array;
  readonly rss: number;
}

/**
 * Nonlinear least squares min Σ r_i(p)² by Levenberg-Marquardt steps, each solved by QR on the Jacobian with the
 * damping as further rows (never JᵀJ), then Gauss-Newton steps until nothing changes. Units: any; standard errors in
 * those of the parameters, from (JᵀJ)⁻¹·Σr²/(points − parameters).
 * Several starts: the given one; where the best so far is not a minimum (offset above 1e-4, or parameters without
 * pull), points drawn from a fixed seed, each parameter of the given start multiplied by 10^u, u even in ±½ for the
 * first quarter of them, ±1, ±2 and ±3 for the next ones, signs kept. A later one wins with a sum lower by 1 % or more.
 * Valid: smooth residuals; a minimum found is one of possibly many, the more so from one start.
 * Sources: Levenberg, Q. Appl. Math. 2 (1944) 164; Marquardt, J. SIAM 11 (1963) 431; golub-van-loan-2013 for QR;
 * Bates and Watts, Technometrics 23 (1981) 179 for the offset.
 * @throws NumericalError when no start leads to a minimum, or the parameters depend on each other there
 */
export function fitNonlinear(problem: NonlinearProblem): NonlinearFit {
  const { points, start, starts = 1 } = problem;
  demand(points >= start.length && start.length > 0, `fitNonlinear: needs at least ${start.length} points`);
  demand(Number.isInteger(starts) && starts > 0, `fitNonlinear: starts must be a whole number above 0, got ${starts}`);
  let best: NonlinearFit | null = null;
  let fault: unknown = new NumericalError("fitNonlinear: no start led to finite residuals");
  for (let k = 0; k < starts && !(best !== null && best.relativeOffset < atMinimum); k += 1) {
    const place = descend(problem, spread(start, k, starts));
    if (place === null || (best !== null && !(place.rss < best.sumOfSquares * 0.99))) continue;
    try {
      best = summary(problem, polish(problem, place), k);
    } catch (error) {
      // A parameter that lost all its pull: this start led nowhere, another may not.
      if (!(error instanceof NumericalError)) throw error;
      fault = error;
    }
  }
  if (best === null) throw fault;
  return best;
}

const sizesOf = ({ sizes }: NonlinearProblem, p: Float64Array): Float64Array =>
  p.map((value, k) => Math.max(Math.abs(value), sizes?.[k] ?? 1e-300));

function spread(start: readonly number[], k: number, starts: number): Float64Array {
  const p = Float64Array.from(start);
  if (k === 0) return p;
  const stream = createRandom(k);
  const reach = [0.5, 1, 2, 3][Math.floor((4 * (k - 1)) / (starts - 1))]!;
  return p.map((value) => value * 10 ** (reach * (2 * stream.next() - 1)));
}

function evaluate({ residuals, points }: NonlinearProblem, p: Float64Array): Place | null {
  const r = new Float64Array(points);
  residuals(p, r);
  let rss = 0;
  for (const value of r) rss += value * value;
  return Number.isFinite(rss) ? { p, r, rss } : null;
}

/** Least squares step of the Jacobian with `damping`·scale as further rows; null when it cannot be solved. */
function step(j: Float64Array, r: Float64Array, scale: Float64Array, damping: number): Float64Array | null {
  const n = scale.length;
  const m = r.length;
  const design = new Float64Array((m + n) * n);
  design.set(j);
  const right = new Float64Array(m + n);
  for (let i = 0; i < m; i += 1) right[i] = -r[i]!;
  for (let k = 0; k < n; k += 1) design[(m + k) * n + k] = damping * scale[k]!;
  try {
    return qrSolve(design, m + n, n, right).coefficients;
  } catch (error) {
    if (error instanceof NumericalError) return null;
    throw error;
  }
}

function descend(problem: NonlinearProblem, start: Float64Array): Place | null {
  const first = evaluate(problem, start);
  if (first === null) return null;
  let place: Place = first;
  const n = start.length;
  const scale = new Float64Array(n);
  let damping = 0.03;
  let growth = 2;
  let still = 0;
  for (let turn = 0; turn < 2000 && still < 4; turn += 1) {
    const j = quickJacobian(problem.residuals, place.p, sizesOf(problem, place.p), problem.points);
    if (j === null) return null;
    // Columns keep the greatest length they ever had: a parameter that stops mattering does not run away.
    for (let k = 0; k < n; k += 1) {
      let square = 0;
      for (let i = 0; i < problem.points; i += 1) square += j[i * n + k]! ** 2;
      scale[k] = Math.max(0.8 * scale[k]!, Math.sqrt(square), 1e-300);
    }
    let moved = false;
    while (!moved && damping < 1e12) {
      const move = step(j, place.r, scale, damping);
      const next =
        move === null
          ? null
          : evaluate(
              problem,
              place.p.map((value, k) => value + move[k]!),
            );
      if (next !== null && next.rss < place.rss) {
        still = next.rss > place.rss * (1 - 1e-10) ? still + 1 : 0;
        place = next;
        damping = Math.max(damping / 5, 1e-12);
        growth = 2;
        moved = true;
      } else {
        damping *= growth;
        growth = Math.min(growth * 2, 64);
      }
    }
    if (!moved) break;
  }
  return place;
}

/** Undamped steps as long as they shrink: the sum of squares is flat to half its digits, the steps are not. */
function polish(problem: NonlinearProblem, from: Place): Place {
  let place = from;
  let before = Number.POSITIVE_INFINITY;
  for (let turn = 0; turn < 30; turn += 1) {
    const j = carefulJacobian(problem.residuals, place.p, sizesOf(problem, place.p), problem.points);
    const move = j === null ? null : step(j, place.r, new Float64Array(place.p.length), 0);
    if (move === null) return place;
    const size = Math.max(...move.map((value, k) => Math.abs(value) / sizesOf(problem, place.p)[k]!));
    const next = evaluate(
      problem,
      place.p.map((value, k) => value + move[k]!),
    );
    if (next === null || !(size < before) || next.rss > place.rss * (1 + 1e-6)) return place;
    place = next;
    before = size;
    if (size < 1e-15) return place;
  }
  return place;
}

function summary(problem: NonlinearProblem, place: Place, start: number): NonlinearFit {
  const n = place.p.length;
  const j = carefulJacobian(problem.residuals, place.p, sizesOf(problem, place.p), problem.points);
  demand(j !== null, "fitNonlinear: the residuals are not finite around the minimum");
  const linear = qrSolve(j, problem.points, n, place.r);
  let left = 0;
  for (const value of linear.residuals) left += value * value;
  const degreesOfFreedom = problem.points - n;
  const residualDeviation = degreesOfFreedom === 0 ? 0 : Math.sqrt(place.rss / degreesOfFreedom);
  const covariance = linear.unscaledCovariance.map((value) => value * residualDeviation ** 2);
  return {
    parameters: place.p,
    standardErrors: Float64Array.from(place.p, (_, k) => Math.sqrt(covariance[k * n + k]!)),
    covariance,
    residuals: place.r,
    sumOfSquares: place.rss,
    residualDeviation,
    degreesOfFreedom,
    relativeOffset: place.rss > 0 ? Math.sqrt(Math.max(0, place.rss - left) / place.rss) : 0,
    start,
  };
}
