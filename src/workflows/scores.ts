import { expit, normalQuantile } from "#numerics";
import type { Acceptance, PatchResult } from "#terms";

/** Smallest residue share that the scores tell apart: below it a patch is simply clean. */
const RESIDUE_FLOOR = 2e-3;
/** Widths of the soft steps, in ln residue and ln power: they turn counts over few draws into a smooth score. */
const RESIDUE_SOFTNESS = 0.4;
const MARGIN_SOFTNESS = 0.08;
const NEAR_MISS_SOFTNESS = 0.35;
const PROBABILITY_FLOOR = 0.005;

/** True where one version of the physics leaves no more residue than accepted. */
export function isClean(result: PatchResult, acceptance: Acceptance): boolean {
  return result.residueFraction <= acceptance.residueMax;
}

/** True where one version of the physics harms neither the metal nor a layer that must stay beyond the acceptance. */
export function isUndamaged(result: PatchResult, acceptance: Acceptance): boolean {
  return result.metalCondition <= acceptance.metalConditionMax && result.damageMargin >= 0;
}

/** Soft versions of both verdicts, between 0 and 1, rising with the margin to the limit. */
export function softClean(result: PatchResult, acceptance: Acceptance): number {
  const limit = Math.max(acceptance.residueMax, RESIDUE_FLOOR);
  return expit(
    (Math.log(limit + RESIDUE_FLOOR) - Math.log(result.residueFraction + RESIDUE_FLOOR)) / RESIDUE_SOFTNESS + 0.7,
  );
}

export function softUndamaged(result: PatchResult, acceptance: Acceptance): number {
  const byMargin = expit(result.damageMargin / MARGIN_SOFTNESS);
  return isUndamaged(result, acceptance) ? Math.max(byMargin, 0.5) : Math.min(byMargin, 0.5);
}

/** A mean of soft verdicts on the probit scale, kept away from certainty that so few draws cannot claim. */
export function probitScore(mean: number): number {
  return normalQuantile(Math.min(1 - PROBABILITY_FLOOR, Math.max(PROBABILITY_FLOOR, mean)));
}

/** A forgiving verdict on both edges at once: it still slopes where a setting is far from either. */
export function nearMiss(result: PatchResult): number {
  return (1 - result.residueFraction) * expit(result.damageMargin / NEAR_MISS_SOFTNESS) * (1 - result.stayLayerHarmed);
}
