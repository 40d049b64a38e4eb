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

/** Nine entries, row by row. */
export type Matrix3 = readonly [number, number, number, number, number, number, number, number, number];

/**
 * Adjugate and determinant of a 3 × 3 matrix, row by row; the inverse is the first over the second.
 * Equation: cofactors, transposed. Range: any finite entries, singular ones included. Errors: none. Source: Cramer's rule.
 */
export function adjugate3(m: Matrix3): { readonly adjugate: Matrix3; readonly determinant: number } {
  const at = (i: number, j: number) => m[3 * (i % 3) + (j % 3)]!;
  /** Cofactor of row j and column i: indices that go round carry the sign. */
  const entry = (i: number, j: number) => at(j + 1, i + 1) * at(j + 2, i + 2) - at(j + 1, i + 2) * at(j + 2, i + 1);
  const adjugate: Matrix3 = [
    entry(0, 0),
    entry(0, 1),
    entry(0, 2),
    entry(1, 0),
    entry(1, 1),
    entry(1, 2),
    entry(2, 0),
    entry(2, 1),
    entry(2, 2),
  ];
  return { adjugate, determinant: m[0] * adjugate[0] + m[1] * adjugate[3] + m[2] * adjugate[6] };
}
