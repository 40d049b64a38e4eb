/** A number with its standard uncertainty, in the same unit. */
export interface Measured {
  readonly value: number;
  readonly uncertainty: number;
}

/**
 * Standard uncertainty of a figure of a whole patch from the same figure with one part left out at a time.
 *
 * Equation: √((n − 1)/n · Σ(xᵢ − x̄)²), n parts. Units: that of the figures. Range: two parts or more, else 0.
 * Errors: none. Source: Tukey, Ann. Math. Stat. 29 (1958) 614 (jackknife).
 */
export function jackknife(leftOut: readonly number[]): number {
  const n = leftOut.length;
  if (n < 2) return 0;
  const middle = leftOut.reduce((sum, x) => sum + x, 0) / n;
  return Math.sqrt(((n - 1) / n) * leftOut.reduce((sum, x) => sum + (x - middle) ** 2, 0));
}

/** Parts of a patch, 3 × 3: small enough to have a few, large enough to hold its texture. */
export const PARTS = 9;

/** Part of a pixel among 3 × 3. */
export function partOf(i: number, width: number, height: number): number {
  const column = Math.min(2, Math.floor((3 * (i % width)) / width));
  const row = Math.min(2, Math.floor((3 * Math.floor(i / width)) / height));
  return 3 * row + column;
}
