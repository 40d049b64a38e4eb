import { demand } from "./numerical-error.ts";

/**
 * Matrices are Float64Arrays in row-major order; their shape is handed in beside them. Results are new arrays.
 */
export function identity(n: number): Float64Array {
  const out = new Float64Array(n * n);
  for (let i = 0; i < n; i += 1) out[i * n + i] = 1;
  return out;
}

/** Rows laid one after the other. @throws NumericalError for rows of unequal length */
export function fromRows(rows: readonly ArrayLike<number>[]): Float64Array {
  const columns = rows[0]?.length ?? 0;
  const out = new Float64Array(rows.length * columns);
  rows.forEach((row, i) => {
    demand(row.length === columns, "fromRows: rows of unequal length");
    out.set(Array.from(row), i * columns);
  });
  return out;
}

/** Aᵀ of an m × n matrix. */
export function transpose(a: Float64Array, m: number, n: number): Float64Array {
  const out = new Float64Array(m * n);
  for (let i = 0; i < m; i += 1) for (let j = 0; j < n; j += 1) out[j * m + i] = a[i * n + j]!;
  return out;
}

/** A·B of m × k and k × n. @throws NumericalError when the shapes do not fit */
export function multiply(a: Float64Array, b: Float64Array, m: number, k: number, n: number): Float64Array {
  demand(a.length === m * k && b.length === k * n, "multiply: the shapes do not fit");
  const out = new Float64Array(m * n);
  for (let i = 0; i < m; i += 1) {
    for (let l = 0; l < k; l += 1) {
      const factor = a[i * k + l]!;
      for (let j = 0; j < n; j += 1) out[i * n + j]! += factor * b[l * n + j]!;
    }
  }
  return out;
}

/** A·x of an m × n matrix. @throws NumericalError when the shapes do not fit */
export function multiplyVector(a: Float64Array, x: ArrayLike<number>, m: number, n: number): Float64Array {
  demand(a.length === m * n && x.length === n, "multiplyVector: the shapes do not fit");
  const out = new Float64Array(m);
  for (let i = 0; i < m; i += 1) {
    let sum = 0;
    for (let j = 0; j < n; j += 1) sum += a[i * n + j]! * x[j]!;
    out[i] = sum;
  }
  return out;
}

/** Σ xᵢ·yᵢ. @throws NumericalError for unequal lengths */
export function dot(x: ArrayLike<number>, y: ArrayLike<number>): number {
  demand(x.length === y.length, "dot: unequal lengths");
  let sum = 0;
  for (let i = 0; i < x.length; i += 1) sum += x[i]! * y[i]!;
  return sum;
}
