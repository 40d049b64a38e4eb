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

/** Turns column k of a copy of the design into one pivot and applies the same reflection to the rest and to y. */
function reflect(a: Float64Array, y: Float64Array, rows: number, columns: number, k: number): void {
  let square = 0;
  for (let i = k; i < rows; i += 1) square += a[i * columns + k]! ** 2;
  const norm = Math.sqrt(square);
  if (norm === 0) return;
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
  let sum = 0;
  for (let i = k; i < rows; i += 1) sum += v[i - k]! * y[i]!;
  for (let i = k; i < rows; i += 1) y[i]! -= (sum / half) * v[i - k]!;
}

/**
 * Least squares min ‖A·b − y‖ by Householder reflections on columns scaled to length 1 (never AᵀA).
 * A: rows × columns, row-major, rows ≥ columns; y: one value per row; any consistent units.
 * Source: golub-van-loan-2013, 5.3.
 * @throws NumericalError when the shapes do not fit, a value is not finite or the columns are dependent
 */
export function qrSolve(design: Float64Array, rows: number, columns: number, right: ArrayLike<number>): LeastSquares {
  demand(design.length === rows * columns && right.length === rows, "qrSolve: the shapes do not fit");
  demand(columns > 0 && rows >= columns, `qrSolve: needs at least ${columns} rows, got ${rows}`);
  const a = Float64Array.from(design);
  const y = Float64Array.from(right);
  const scale = new Float64Array(columns);
  for (let j = 0; j < columns; j += 1) {
    let square = 0;
    for (let i = 0; i < rows; i += 1) square += a[i * columns + j]! ** 2;
    scale[j] = Math.sqrt(square);
    demand(Number.isFinite(square) && square > 0, `qrSolve: column ${j + 1} is zero or not finite`);
    for (let i = 0; i < rows; i += 1) a[i * columns + j]! /= scale[j]!;
  }
  for (let k = 0; k < columns; k += 1) {
    reflect(a, y, rows, columns, k);
    if (!(Math.abs(a[k * columns + k]!) > 10 * rows * Number.EPSILON)) {
      throw new NumericalError(`qrSolve: column ${k + 1} depends on the columns before it`);
    }
  }
  const coefficients = backSubstitute(a, columns, y);
  const inverse = inverseUpper(a, columns);
  const covariance = new Float64Array(columns * columns);
  for (let i = 0; i < columns; i += 1) {
    for (let j = 0; j < columns; j += 1) {
      let sum = 0;
      for (let k = Math.max(i, j); k < columns; k += 1) sum += inverse[i * columns + k]! * inverse[j * columns + k]!;
      covariance[i * columns + j] = sum / (scale[i]! * scale[j]!);
    }
  }
  for (let j = 0; j < columns; j += 1) coefficients[j]! /= scale[j]!;
  const residuals = Float64Array.from(right);
  for (let i = 0; i < rows; i += 1) {
    for (let j = 0; j < columns; j += 1) residuals[i]! -= design[i * columns + j]! * coefficients[j]!;
    demand(Number.isFinite(residuals[i]!), "qrSolve: a value on the right side is not finite");
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
