import { mean, normalCdf, quantiles } from "#numerics";
import type { SettingFeatures } from "#terms";
import type { EdgePosterior } from "./edge-posterior.ts";
import { type GroupVector, requireFeatures, scaledGroups } from "./groups.ts";
import { coefficientCount } from "./prior.ts";

/** Mean over the posterior draws, with the 5 and 95 % points. */
export interface ProbabilitySpread {
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

export interface WindowPrediction {
  readonly clean: ProbabilitySpread;
  readonly undamaged: ProbabilitySpread;
  readonly both: ProbabilitySpread;
}

/** The part of a fit that predictions rest on. */
export interface WindowDraws {
  readonly clean: EdgePosterior;
  readonly undamaged: EdgePosterior;
  readonly centre: GroupVector | null;
  readonly draws: number;
}

/**
 * Φ(a + b·score + Σ c_k g_k) in each of the first `count` draws; mis-grading is left out, since the question is
 * what the patch will be, not how it will be read. Dimensionless. Throws nothing. Source: the fitted model.
 */
export function edgeProbabilities(
  edge: EdgePosterior,
  score: number,
  groups: GroupVector,
  count: number,
): Float64Array {
  const out = new Float64Array(count);
  const { coefficients } = edge;
  const [g0, g1, g2, g3] = groups;
  for (let i = 0, r = 0; i < count; i++, r += coefficientCount) {
    out[i] = normalCdf(
      coefficients[r]! +
        coefficients[r + 1]! * score +
        coefficients[r + 2]! * g0 +
        coefficients[r + 3]! * g1 +
        coefficients[r + 4]! * g2 +
        coefficients[r + 5]! * g3,
    );
  }
  return out;
}

/** Probabilities of one setting in each of the first `count` draws. Throws InvalidInput on a feature not finite. */
export function windowProbabilities(
  fit: WindowDraws,
  features: SettingFeatures,
  count = fit.draws,
): { readonly clean: Float64Array; readonly undamaged: Float64Array } {
  requireFeatures(features);
  const groups = scaledGroups(features, fit.centre);
  return {
    clean: edgeProbabilities(fit.clean, features.cleanScore, groups, count),
    undamaged: edgeProbabilities(fit.undamaged, features.undamagedScore, groups, count),
  };
}

/** Posterior probability of clean, of undamaged and of both, with spreads. */
export function predictWindow(fit: WindowDraws, features: SettingFeatures): WindowPrediction {
  const { clean, undamaged } = windowProbabilities(fit, features);
  const both = clean.map((p, i) => p * undamaged[i]!);
  return { clean: spreadOf(clean), undamaged: spreadOf(undamaged), both: spreadOf(both) };
}

/** Mean probabilities alone, over the first `count` draws: for screening many settings. */
export function meanProbabilities(
  fit: WindowDraws,
  features: SettingFeatures,
  count = fit.draws,
): { readonly clean: number; readonly undamaged: number; readonly both: number } {
  const { clean, undamaged } = windowProbabilities(fit, features, count);
  let sumClean = 0;
  let sumUndamaged = 0;
  let sumBoth = 0;
  for (let i = 0; i < count; i++) {
    sumClean += clean[i]!;
    sumUndamaged += undamaged[i]!;
    sumBoth += clean[i]! * undamaged[i]!;
  }
  return { clean: sumClean / count, undamaged: sumUndamaged / count, both: sumBoth / count };
}

/** Mean, 5 and 95 % points of probabilities. */
export function spreadOf(values: Float64Array): ProbabilitySpread {
  const [low, high] = quantiles(values, [0.05, 0.95]);
  return { mean: mean(values), low: low!, high: high! };
}
