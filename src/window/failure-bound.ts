import { clopperPearson } from "#numerics";
import { requireInteger } from "#units";

/**
 * One-sided 95 % upper bound of the failure share after `bad` failures in `burned` patches (Clopper-Pearson):
 * the p at which P(X ≤ bad | burned, p) = 0.05; with no failure 1 − 0.05^(1/burned).
 * `burned`, `bad`: counts, bad ≤ burned; result 0 to 1; 1 when nothing was burned or everything failed.
 * Throws InvalidInput on counts that are not whole or do not fit.
 * The upper end of the two-sided 90 % interval. Source: Clopper and Pearson, Biometrika 26 (1934).
 */
export function failureUpperBound(burned: number, bad: number): number {
  requireInteger("burned", burned, 0, 100_000);
  requireInteger("bad", bad, 0, burned);
  if (burned === bad) return 1;
  return clopperPearson(bad, burned, 0.9).high;
}
