import { demand, NumericalError } from "./numerical-error.ts";

export interface LeastSquares {
  readonly coefficients: Float64Array;
  /** standard errors of the coefficients; zeros when rows = columns */
  readonly standardErrors: Float64Array;
  /** (AᵀA)⁻¹, columns × columns; times residualDeviation² it is the covariance */
  readonly unscaledCovariance: Float64Array;
  readonly residuals: Float64Array;
  /** √(Σ residual²/(rows − columns)), unit of the right side; 0 when rows = columns */
  readonly residualDeviation: number;
  readonly degreesOfFreedom: number;
}

/** A reflection that starts at row k: y − v·(vᵀy)/half. */
interface Reflection {
  readonly k: number;
  readonly v: Float64Array;
  readonly half: number;
}

function apply({ k, v, half }: Reflection, y: Float64Array): void {
  let sum = 0;
  for (let i = 0; i < v.length; i += 1) sum += v[i]! * y[k + i]!;
  const factor = sum / half;
  for (let i = 0; i < v.length; i += 1) y[k + i]! -= factor * v[i]!;
}

/** Turns column k of a copy of the design into one pivot; null for a column that is 0 from there on. */
function reflect(a: Float64Array, rows: number, columns: number, k: number): Reflection | null {
  let square = 0;
  for (let i = k; i < rows; i += 1) square += a[i * columns + k]! ** 2;
  const norm = Math.sqrt(square);
  if (norm === 0) return null;
  const pivot = a[k * columns + k]!;
  const alpha = pivot > 0 ? -norm : norm;
  const v = new Float64Array(rows - k);
  for (let i = k; i < rows; i += 1) v[i - k] = a[i * columns + k]!;
  v[0]! -= alpha;
  const half = square - alpha * pivot;
  for (let j = k; j < columns; j += 1) {
    let sum = 0;
    for (let i = k; i < rows; i += 1) sum += v[i - k]! * a[i * columns + j]!;
    const factor = sum / half;
    for (let i = k; i < rows; i += 1) a[i * columns + j]! -= factor * v[i - k]!;
  }
  return { k, v, half };
}

/**
 * Least squares min ‖A·b − y‖ by Householder reflections on columns scaled to length 1 (never AᵀA), the
 * coefficients refined once by the same reflections on the residuals.
 * A: rows × columns, row-major, rows ≥ columns; y: one value per row; any consistent units.
 * Source: golub-van-loan-2013, 5.3.
 * @throws NumericalError when the shapes do not fit, a value is not finite or the columns are dependent
 */
export function qrSolve(design: Float64Array, rows: number, columns: number, right: ArrayLike<number>): LeastSquares {
  demand(design.length === rows * columns && right.length === rows, "qrSolve: the shapes do not fit");
  demand(columns > 0 && rows >= columns, `qrSolve: needs at least ${columns} rows, got ${rows}`);
  const a = Float64Array.from(design);
  const scale = new Float64Array(columns);
  for (let j = 0; j < columns; j += 1) {
    let square = 0;
    for (let i = 0; i < rows; i += 1) square += a[i * columns + j]! ** 2;
    scale[j] = Math.sqrt(square);
    demand(Number.isFinite(square) && square > 0, `qrSolve: column ${j + 1} is zero or not finite`);
    for (let i = 0; i < rows; i += 1) a[i * columns + j]! /= scale[j]!;
  }
  const reflections: Reflection[] = [];
  for (let k = 0; k < columns; k += 1) {
    const reflection = reflect(a, rows, columns, k);
    if (reflection !== null) reflections.push(reflection);
    if (!(Math.abs(a[k * columns + k]!) > 10 * rows * Number.EPSILON)) {
      throw new NumericalError(`qrSolve: column ${k + 1} depends on the columns before it`);
    }
  }
  const solve = (side: ArrayLike<number>): Float64Array => {
    const y = Float64Array.from(side);
    for (const reflection of reflections) apply(reflection, y);
    return backSubstitute(a, columns, y);
  };
  const residualsOf = (at: Float64Array): Float64Array => {
    const out = Float64Array.from(right);
    for (let i = 0; i < rows; i += 1) {
      for (let j = 0; j < columns; j += 1) out[i]! -= design[i * columns + j]! * at[j]!;
    }
    return out;
  };
  const coefficients = solve(right);
  for (let j = 0; j < columns; j += 1) coefficients[j]! /= scale[j]!;
  const refinement = solve(residualsOf(coefficients));
  for (let j = 0; j < columns; j += 1) coefficients[j]! += refinement[j]! / scale[j]!;
  const residuals = residualsOf(coefficients);
  demand(residuals.every(Number.isFinite), "qrSolve: a value on the right side is not finite");
  const inverse = inverseUpper(a, columns);
  const covariance = new Float64Array(columns * columns);
  for (let i = 0; i < columns; i += 1) {
    for (let j = 0; j < columns; j += 1) {
      let sum = 0;
      for (let k = Math.max(i, j); k < columns; k += 1) sum += inverse[i * columns + k]! * inverse[j * columns + k]!;
      covariance[i * columns + j] = sum / (scale[i]! * scale[j]!);
    }
  }
  const degreesOfFreedom = rows - columns;
  let squares = 0;
  for (const residual of residuals) squares += residual * residual;
  const residualDeviation = degreesOfFreedom === 0 ? 0 : Math.sqrt(squares / degreesOfFreedom);
  const standardErrors = Float64Array.from(
    coefficients,
    (_, j) => residualDeviation * Math.sqrt(covariance[j * columns + j]!),
  );
  return {
    coefficients,
    standardErrors,
    unscaledCovariance: covariance,
    residuals,
    residualDeviation,
    degreesOfFreedom,
  };
}

function backSubstitute(r: Float64Array, n: number, y: ArrayLike<number>): Float64Array {
  const x = new Float64Array(n);
  for (let i = n - 1; i >= 0; i -= 1) {
    let sum = y[i]!;
    for (let j = i + 1; j < n; j += 1) sum -= r[i * n + j]! * x[j]!;
    x[i] = sum / r[i * n + i]!;
  }
  return x;
}

function inverseUpper(r: Float64Array, n: number): Float64Array {
  const out = new Float64Array(n * n);
  const unit = new Float64Array(n);
  for (let j = 0; j < n; j += 1) {
    unit.fill(0);
    unit[j] = 1;
    const column = backSubstitute(r, n, unit);
    for (let i = 0; i <= j; i += 1) out[i * n + j] = column[i]!;
  }
  return out;
}
