import { cholesky, choleskyLogDeterminant, NumericalError } from "#numerics";

/** What an effect model holds beside the constant: straight terms, products of pairs, squares. */
export type RegressorModel = "linear" | "interactions" | "quadratic";

/**
 * Row of an effect model at a point in coded units: 1, x₁ … x_k, then all x_i·x_j (i < j), then all x_i² as the model
 * goes. Dimensionless. Throws nothing. Source: response surfaces, Box, Hunter and Hunter.
 */
export function regressorRow(model: RegressorModel, x: readonly number[]): number[] {
  const row = [1, ...x];
  if (model === "linear") return row;
  for (let i = 0; i < x.length; i++) for (let j = i + 1; j < x.length; j++) row.push(x[i]! * x[j]!);
  if (model === "quadratic") for (const value of x) row.push(value * value);
  return row;
}

/** Length of `regressorRow`: 1 + k, with k(k − 1)/2 products, with k squares. */
export function regressorCount(model: RegressorModel, factors: number): number {
  const products = (factors * (factors - 1)) / 2;
  return 1 + factors + (model === "linear" ? 0 : products) + (model === "quadratic" ? factors : 0);
}

/**
 * ln det(XᵀX) of rows; −∞ where they do not determine all coefficients. Dimensionless. Throws nothing.
 * Source: definition.
 */
export function logInformation(rows: readonly (readonly number[])[]): number {
  const p = rows[0]?.length ?? 0;
  const m = new Float64Array(p * p);
  for (const row of rows) for (let i = 0; i < p; i++) for (let j = 0; j <= i; j++) m[i * p + j]! += row[i]! * row[j]!;
  try {
    return choleskyLogDeterminant(cholesky(m, p), p);
  } catch (error) {
    if (error instanceof NumericalError) return Number.NEGATIVE_INFINITY;
    throw error;
  }
}

/**
 * D-efficiency of a design against another for the same model: det(XᵀX)^(1/p)/n over that of the other, n counted,
 * 0 when it determines not all coefficients. Rows: regressors of either; the other determines all. Result: 0 upwards, 1 where as good per run.
 * Throws nothing. Source: Atkinson, Donev and Tobias, Optimum Experimental Designs, 2007.
 */
export function dEfficiency(rows: readonly (readonly number[])[], other: readonly (readonly number[])[]): number {
  const p = other[0]?.length ?? 1;
  const mine = logInformation(rows) / p - Math.log(rows.length);
  return Math.exp(mine - logInformation(other) / p + Math.log(other.length));
}

/**
 * Largest |correlation| between two columns, 0 to 1, with the pair it is found in; constant columns do not count.
 * Points: rows of equal length. Throws nothing. Source: definition of the product-moment correlation.
 */
export function largestCorrelation(points: readonly (readonly number[])[]): {
  readonly value: number;
  readonly pair: readonly [number, number];
} {
  const columns = (points[0] ?? []).map((_, k) => standardised(points.map((p) => p[k]!)));
  let best = { value: 0, pair: [0, 0] as [number, number] };
  columns.forEach((a, i) => {
    for (let j = 0; j < i; j++) {
      const b = columns[j]!;
      const value = Math.abs(a.reduce((sum, x, n) => sum + x * b[n]!, 0)) / Math.max(1, a.length);
      if (value > best.value) best = { value: Math.min(1, value), pair: [j, i] };
    }
  });
  return best;
}

/** Values less their mean over their root mean square; all 0 where they do not differ. */
export function standardised(values: readonly number[]): number[] {
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  const spread = Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / values.length);
  const floor = 1e-9 * Math.max(1, Math.abs(mean));
  return values.map((v) => (spread > floor ? (v - mean) / spread : 0));
}
