import { identity } from "./matrix.ts";
import { demand, NumericalError } from "./numerical-error.ts";

export interface Eigen {
  /** ascending */
  readonly values: Float64Array;
  /** n × n, row-major: column k belongs to value k, length 1 */
  readonly vectors: Float64Array;
}

/**
 * Eigenvalues and vectors of a symmetric n × n matrix by cyclic Jacobi rotations. Values in the unit of the matrix.
 * Source: golub-van-loan-2013, 8.5.
 * @throws NumericalError when the matrix is not symmetric or the sweeps do not suffice
 */
export function symmetricEigen(matrix: Float64Array, n: number): Eigen {
  demand(matrix.length === n * n && n > 0, "symmetricEigen: the matrix is not n × n");
  const a = Float64Array.from(matrix);
  let size = 0;
  for (const entry of a) size += entry * entry;
  demand(Number.isFinite(size), "symmetricEigen: an entry is not finite");
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j < i; j += 1) {
      demand(
        Math.abs(a[i * n + j]! - a[j * n + i]!) <= 1e-10 * Math.sqrt(size),
        "symmetricEigen: the matrix is not symmetric",
      );
    }
  }
  const v = identity(n);
  for (let sweep = 0; sweep < 60; sweep += 1) {
    let off = 0;
    for (let i = 0; i < n; i += 1) for (let j = 0; j < i; j += 1) off += a[i * n + j]! ** 2;
    if (off <= 1e-34 * size) return ordered(a, v, n);
    for (let p = 0; p < n - 1; p += 1) for (let q = p + 1; q < n; q += 1) rotate(a, v, n, p, q);
  }
  throw new NumericalError("symmetricEigen: no convergence in 60 sweeps");
}

/** Turns rows and columns p and q so that entry (p, q) becomes 0. */
function rotate(a: Float64Array, v: Float64Array, n: number, p: number, q: number): void {
  const apq = a[p * n + q]!;
  if (apq === 0) return;
  const theta = (a[q * n + q]! - a[p * n + p]!) / (2 * apq);
  const t = (theta >= 0 ? 1 : -1) / (Math.abs(theta) + Math.hypot(theta, 1));
  const c = 1 / Math.hypot(t, 1);
  const s = t * c;
  for (let k = 0; k < n; k += 1) {
    const kp = a[k * n + p]!;
    const kq = a[k * n + q]!;
    a[k * n + p] = c * kp - s * kq;
    a[k * n + q] = s * kp + c * kq;
  }
  for (let k = 0; k < n; k += 1) {
    const pk = a[p * n + k]!;
    const qk = a[q * n + k]!;
    a[p * n + k] = c * pk - s * qk;
    a[q * n + k] = s * pk + c * qk;
    const vp = v[k * n + p]!;
    const vq = v[k * n + q]!;
    v[k * n + p] = c * vp - s * vq;
    v[k * n + q] = s * vp + c * vq;
  }
  a[p * n + q] = 0;
  a[q * n + p] = 0;
}

function ordered(a: Float64Array, v: Float64Array, n: number): Eigen {
  const order = Array.from({ length: n }, (_, i) => i).sort((i, j) => a[i * n + i]! - a[j * n + j]!);
  const vectors = new Float64Array(n * n);
  order.forEach((from, to) => {
    for (let k = 0; k < n; k += 1) vectors[k * n + to] = v[k * n + from]!;
  });
  return { values: Float64Array.from(order, (i) => a[i * n + i]!), vectors };
}
