import { demand, NumericalError } from "./numerical-error.ts";

/**
 * Lower triangle L with L·Lᵀ = A for a symmetric positive definite n × n matrix; only the lower triangle of A is read.
 * Source: golub-van-loan-2013, 4.2.
 * @throws NumericalError when A is not positive definite to working accuracy
 */
export function cholesky(a: Float64Array, n: number): Float64Array {
  demand(a.length === n * n, "cholesky: the matrix is not n × n");
  const l = new Float64Array(n * n);
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j <= i; j += 1) {
      let sum = a[i * n + j]!;
      for (let k = 0; k < j; k += 1) sum -= l[i * n + k]! * l[j * n + k]!;
      if (i !== j) {
        l[i * n + j] = sum / l[j * n + j]!;
      } else if (sum > n * Number.EPSILON * Math.abs(a[i * n + i]!)) {
        l[i * n + i] = Math.sqrt(sum);
      } else {
        throw new NumericalError(`cholesky: the matrix is not positive definite (row ${i + 1} of ${n}, pivot ${sum})`);
      }
    }
  }
  if (!Number.isFinite(l[n * n - 1] ?? 0))
    throw new NumericalError("cholesky: the matrix has an entry that is not finite");
  return l;
}

/** x with L·x = b, by forward substitution. */
export function solveLower(l: Float64Array, n: number, b: ArrayLike<number>): Float64Array {
  const x = new Float64Array(n);
  for (let i = 0; i < n; i += 1) {
    let sum = b[i]!;
    for (let k = 0; k < i; k += 1) sum -= l[i * n + k]! * x[k]!;
    x[i] = sum / l[i * n + i]!;
  }
  return x;
}

/** x with Lᵀ·x = b, by backward substitution. */
export function solveLowerTransposed(l: Float64Array, n: number, b: ArrayLike<number>): Float64Array {
  const x = Float64Array.from(b);
  for (let i = n - 1; i >= 0; i -= 1) {
    const value = x[i]! / l[i * n + i]!;
    x[i] = value;
    for (let k = 0; k < i; k += 1) x[k]! -= l[i * n + k]! * value;
  }
  return x;
}

/** x with L·Lᵀ·x = b for the L of `cholesky`. */
export function solveCholesky(l: Float64Array, n: number, b: ArrayLike<number>): Float64Array {
  return solveLowerTransposed(l, n, solveLower(l, n, b));
}

/** ln det A = 2 Σ ln Lᵢᵢ for the L of `cholesky`. */
export function choleskyLogDeterminant(l: Float64Array, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i += 1) sum += Math.log(l[i * n + i]!);
  return 2 * sum;
}

/** A⁻¹ for the L of `cholesky`. */
export function choleskyInverse(l: Float64Array, n: number): Float64Array {
  const out = new Float64Array(n * n);
  const unit = new Float64Array(n);
  for (let j = 0; j < n; j += 1) {
    unit.fill(0);
    unit[j] = 1;
    const column = solveCholesky(l, n, unit);
    for (let i = 0; i < n; i += 1) out[i * n + j] = column[i]!;
  }
  return out;
}
