import { betaIncomplete, clopperPearson } from "#numerics";
import { requireInRange, requireInteger } from "#units";

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

/**
 * Patches that it takes to claim a failure share below `share` with the given confidence when `failures` of them fail:
 * the least n with P(X ≤ failures | n, share) ≤ 1 − confidence (Clopper-Pearson); without failures
 * n = ⌈ln(1 − confidence)/ln(1 − share)⌉, 299 for 1 % at 95 %.
 * Units: shares between 0 and 1, counts; result a count. Throws InvalidInput outside.
 * Source: Clopper and Pearson, Biometrika 26 (1934).
 */
export function cleanSitesFor(share: number, confidence = 0.95, failures = 0): number {
  requireInRange("share", share, "", 1e-9, 1 - 1e-9);
  requireInRange("confidence", confidence, "", 1e-9, 1 - 1e-9);
  requireInteger("failures", failures, 0, 100_000);
  if (failures === 0) return Math.ceil(Math.log1p(-confidence) / Math.log1p(-share) - 1e-9);
  const enough = (n: number): boolean => betaIncomplete(n - failures, failures + 1, 1 - share) <= 1 - confidence;
  let high = failures + 1;
  while (!enough(high)) high *= 2;
  let low = Math.max(failures, Math.floor(high / 2));
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (enough(middle)) high = middle;
    else low = middle;
  }
  return high;
}
