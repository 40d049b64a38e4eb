import { NumericalError } from "./numerical-error.ts";

/**
 * Solves a tridiagonal system in place by elimination without pivoting (Thomas), no allocation.
 * Row i: lower[i]·x[i−1] + diagonal[i]·x[i] + upper[i]·x[i+1] = rhs[i], i = 0 to n − 1; lower[0] and upper[n−1] are
 * not read. On return rhs holds x; diagonal is overwritten. Any consistent units. Safe for diagonally dominant
 * systems. Source: golub-van-loan-2013.
 * @throws NumericalError when a pivot is zero or not finite
 */
export function solveTridiagonal(
  lower: Float64Array,
  diagonal: Float64Array,
  upper: Float64Array,
  rhs: Float64Array,
  n = rhs.length,
): void {
  let pivot = diagonal[0]!;
  let value = rhs[0]!;
  for (let i = 1; i < n; i += 1) {
    const factor = lower[i]! / pivot;
    pivot = diagonal[i]! - factor * upper[i - 1]!;
    value = rhs[i]! - factor * value;
    diagonal[i] = pivot;
    rhs[i] = value;
  }
  value /= pivot;
  rhs[n - 1] = value;
  for (let i = n - 2; i >= 0; i -= 1) {
    value = (rhs[i]! - upper[i]! * value) / diagonal[i]!;
    rhs[i] = value;
  }
  // A zero or non-finite pivot anywhere reaches the last value computed, so one look suffices.
  if (!Number.isFinite(value)) throw new NumericalError("solveTridiagonal: zero or non-finite pivot");
}
