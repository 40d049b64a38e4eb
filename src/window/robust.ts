import { mean, quantile } from "#numerics";
import type { Setting, SettingFeatures } from "#terms";
import { type WindowDraws, windowProbabilities } from "./predict-window.ts";

/** A setting that may be burned or recommended. */
export interface Candidate {
  readonly setting: Setting;
  readonly features: SettingFeatures;
  /** m²/s, turn-rounds included */
  readonly areaRate: number;
}

/** Features of the same setting after drift of power, focus, speed …; the nominal setting among them when wanted. */
export type Drift = (setting: Setting) => readonly SettingFeatures[];

/**
 * P(clean)·P(undamaged) averaged over the drifted settings, in each of the first `count` draws.
 * Without drift, of the nominal setting. Dimensionless. Throws InvalidInput on a feature that is not finite.
 */
export function robustProbabilities(
  fit: WindowDraws,
  candidate: Candidate,
  drift: Drift | undefined,
  count = fit.draws,
): Float64Array {
  const drifted = drift === undefined ? [candidate.features] : drift(candidate.setting);
  const cases = drifted.length === 0 ? [candidate.features] : drifted;
  const out = new Float64Array(count);
  for (const features of cases) {
    const { clean, undamaged } = windowProbabilities(fit, features, count);
    for (let i = 0; i < count; i++) out[i] = out[i]! + (clean[i]! * undamaged[i]!) / cases.length;
  }
  return out;
}

/** What the acceptance rule looks at. */
export interface RobustScore {
  /** mean over draws and drift */
  readonly mean: number;
  /** 10 % point over the draws of the mean over drift */
  readonly lower: number;
}

export function robustScore(probabilities: Float64Array): RobustScore {
  return { mean: mean(probabilities), lower: quantile(probabilities, 0.1) };
}

/** How far the 10 % point may fall below the confidence asked for (own choice). */
export const lowerAllowance = 0.2;

/**
 * The rule of acceptance: mean ≥ confidence and 10 % point ≥ confidence − 0.2.
 * The mean is the chance that the next drifted patch is good; the 10 % point refuses a good mean that rests on
 * doubt about the edges. Dimensionless, 0 to 1. Throws nothing. Source: own choice.
 */
export function meetsConfidence(score: RobustScore, confidence: number): boolean {
  return score.mean >= confidence && score.lower >= confidence - lowerAllowance;
}
