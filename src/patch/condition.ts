import type { MetalConditionGrade } from "#terms";

/** Limits of the metal condition grades, settable; defaults are ours. */
export interface ConditionLimits {
  /** m of oxide from which the metal counts as discoloured */
  readonly oxide: number;
  /** m of melt up to which it counts as micro-melted */
  readonly microMelt: number;
  /** share of area that must melt before it counts as micro-melted, and as melted */
  readonly microMeltShare: number;
  readonly meltShare: number;
}

export const conditionLimits: ConditionLimits = { oxide: 20e-9, microMelt: 2e-6, microMeltShare: 0.01, meltShare: 0.1 };

/**
 * Grade of the metal: 0 unchanged, 1 discoloured, 2 micro-melted, 3 melted. Grade 4 (distorted) is observed only.
 *
 * Units: meltDepth m (deepest on the patch), meltedShare 1, oxide m. Range: not negative. Errors: none.
 * Source: own convention, stated in docs/nomenclature.md.
 */
export function metalConditionGrade(
  meltDepth: number,
  meltedShare: number,
  oxide: number,
  limits = conditionLimits,
): MetalConditionGrade {
  if (meltedShare > limits.microMeltShare)
    return meltDepth > limits.microMelt || meltedShare > limits.meltShare ? 3 : 2;
  return oxide > limits.oxide ? 1 : 0;
}
