import { cholesky, choleskyLogDeterminant, createRandom, type RandomStream, solveLower } from "#numerics";
import { invalid, requireFinite, requireInteger, requireNonNegative } from "#units";

/**
 * One question that a trial is to answer: a regressor row and a weight for each candidate. A patch gives the
 * information weight·row·rowᵀ; weights are 1 for a measured value and φ²/(Φ(1 − Φ)) for a yes or no by probit.
 */
export interface ModelAtHand {
  readonly rows: readonly (readonly number[])[];
  readonly weights: readonly number[];
}

export interface DOptimalInput {
  /** each over the same candidates; their logarithms of the determinant add up */
  readonly models: readonly ModelAtHand[];
  /** runs to choose */
  readonly count: number;
  readonly seed: number;
  /** seeded random starts, 5 */
  readonly starts?: number;
  /** precision that is known of each coefficient beforehand: 0 for none; above 0 it is never singular */
  readonly priorPrecision?: number;
  /** whether a candidate may be chosen more than once */
  readonly repeats?: boolean;
  /** candidates that are in the design whatever comes */
  readonly fixed?: readonly number[];
}

export interface DOptimalDesign {
  /** candidates, the fixed ones first */
  readonly chosen: readonly number[];
  /** Σ ln det(Xᵀ·W·X + τI) over the models */
  readonly logDeterminant: number;
}

/** Holds a design on its way without a prior invertible; far below what one run adds. */
const floor = 1e-9;

/**
 * Exact D-optimal design over a list of candidates: from several random starts each run is exchanged in turn for the
 * candidate that raises Σ ln det(XᵀWX + τI) most, until none does; the best end of all starts.
 * Ratio of an exchange of x for y: 1 + d(y) − d(x) − d(x)d(y) + d(x, y)², d(x, y) = √(w_x w_y)·xᵀM⁻¹y.
 * Dimensionless; priorPrecision τ ≥ 0. Throws InvalidInput on counts that do not fit and when no start determines all
 * coefficients without a prior. Source: Fedorov, Theory of Optimal Experiments, 1972; Cook and Nachtsheim,
 * Technometrics 22 (1980); prior: Chaloner and Verdinelli, Statistical Science 10 (1995).
 */
export function dOptimal(input: DOptimalInput): DOptimalDesign {
  const size = input.models[0]?.rows.length ?? 0;
  requireInteger("candidates", size, 1);
  for (const model of input.models) requireModel(model, size);
  const prior = requireNonNegative("prior precision", input.priorPrecision ?? 0);
  const fixed = input.fixed ?? [];
  requireInteger("count", input.count, Math.max(1, fixed.length), input.repeats ? 100_000 : size);
  const starts = requireInteger("starts", input.starts ?? 5, 1, 1000);
  const random = createRandom(input.seed);
  let best: DOptimalDesign | null = null;
  for (let start = 0; start < starts; start++) {
    const chosen = [...fixed, ...randomRuns(size, input, fixed, random.substream(start))];
    const models = input.models.map((model) => new Information(model, prior > 0 ? prior : floor));
    for (const model of models) model.restart(chosen);
    exchange(chosen, fixed.length, size, models, input.repeats ?? false);
    const logDeterminant = models.reduce((sum, model) => sum + model.logDeterminant, 0);
    if (best === null || logDeterminant > best.logDeterminant + 1e-9) best = { chosen, logDeterminant };
  }
  // Each coefficient that the runs leave open has only the floor to its name.
  for (const model of prior === 0 ? input.models : []) {
    const need = model.rows[0]!.length;
    if (new Information(model, floor).rank(best!.chosen) === need) continue;
    invalid("count", input.count, "runs", `candidates that determine all ${need} coefficients, or a prior precision`);
  }
  return best!;
}

function requireModel({ rows, weights }: ModelAtHand, size: number): void {
  const length = requireInteger("regressors", rows[0]?.length ?? 0, 1, 1000);
  if (rows.length !== size) invalid("rows of a model", rows.length, "", `must be ${size}, one for each candidate`);
  for (const [i, row] of rows.entries()) {
    if (row.length !== length) invalid("regressors", row.length, "", `must be ${length} for every candidate`);
    for (const value of row) requireFinite("regressor", value);
    requireNonNegative("weight", weights[i]);
  }
}

function randomRuns(size: number, input: DOptimalInput, fixed: readonly number[], random: RandomStream): number[] {
  const need = input.count - fixed.length;
  if (input.repeats) return Array.from({ length: need }, () => random.integer(size));
  const free = Array.from({ length: size }, (_, i) => i).filter((i) => !fixed.includes(i));
  return random.shuffle(free).slice(0, need);
}

/** Passes over the runs until a whole pass changes none. */
function exchange(
  chosen: number[],
  first: number,
  size: number,
  models: readonly Information[],
  repeats: boolean,
): void {
  const taken = new Uint16Array(size);
  for (const index of chosen) taken[index]!++;
  for (let pass = 0, moved = true; moved && pass < 100; pass++) {
    moved = false;
    for (let run = first; run < chosen.length; run++) {
      const old = chosen[run]!;
      let bestRatio = 1 + 1e-7;
      let best = -1;
      for (let y = 0; y < size; y++) {
        if (y === old || (!repeats && taken[y]! > 0)) continue;
        let ratio = 1;
        for (const model of models) ratio *= model.ratio(old, y);
        if (ratio > bestRatio) [bestRatio, best] = [ratio, y];
      }
      if (best < 0) continue;
      chosen[run] = best;
      taken[old]!--;
      taken[best]!++;
      for (const model of models) model.restart(chosen);
      moved = true;
    }
  }
}

/** M = XᵀWX + τI of a set of runs, with L⁻¹·√w·x of every candidate. */
class Information {
  logDeterminant = 0;
  readonly #model: ModelAtHand;
  readonly #prior: number;
  readonly #size: number;
  #whitened: Float64Array[] = [];
  #own = new Float64Array(0);

  constructor(model: ModelAtHand, prior: number) {
    this.#model = model;
    this.#prior = prior;
    this.#size = model.rows[0]!.length;
  }

  #matrix(chosen: readonly number[]): Float64Array {
    const p = this.#size;
    const m = new Float64Array(p * p);
    for (let i = 0; i < p; i++) m[i * p + i] = this.#prior;
    for (const index of chosen) {
      const row = this.#model.rows[index]!;
      const weight = this.#model.weights[index]!;
      for (let i = 0; i < p; i++) for (let j = 0; j <= i; j++) m[i * p + j]! += weight * row[i]! * row[j]!;
    }
    return m;
  }

  restart(chosen: readonly number[]): void {
    const p = this.#size;
    const l = cholesky(this.#matrix(chosen), p);
    this.logDeterminant = choleskyLogDeterminant(l, p);
    this.#whitened = this.#model.rows.map((row, i) => {
      const root = Math.sqrt(this.#model.weights[i]!);
      return solveLower(
        l,
        p,
        row.map((value) => root * value),
      );
    });
    this.#own = Float64Array.from(this.#whitened, (v) => v.reduce((sum, x) => sum + x * x, 0));
  }

  /** det M after run x gave way to candidate y over det M before. */
  ratio(x: number, y: number): number {
    const a = this.#whitened[x]!;
    const b = this.#whitened[y]!;
    let cross = 0;
    for (let k = 0; k < a.length; k++) cross += a[k]! * b[k]!;
    return 1 + this.#own[y]! - this.#own[x]! - this.#own[x]! * this.#own[y]! + cross * cross;
  }

  /** Number of coefficients that the runs determine: pivots well above the floor. */
  rank(chosen: readonly number[]): number {
    const p = this.#size;
    const l = cholesky(this.#matrix(chosen), p);
    let rank = 0;
    for (let i = 0; i < p; i++) if (l[i * p + i]! ** 2 > 100 * this.#prior) rank++;
    return rank;
  }
}
