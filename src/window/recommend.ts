import type { Margin, Recommendation, Setting, SettingFeatures, WindowObservation } from "#terms";
import { requireFinite, requireShare } from "#units";
import { marginOf } from "./margin.ts";
import { meanProbabilities, spreadOf, type WindowDraws } from "./predict-window.ts";
import { type Candidate, type Drift, meetsConfidence, robustProbabilities, robustScore } from "./robust.ts";
import { isProven, repeatsOf } from "./same-setting.ts";
import { chanceWords, marginWords, provenWords, repeatWords } from "./words.ts";

export interface RecommendInput {
  readonly fit: WindowDraws;
  readonly candidates: readonly Candidate[];
  readonly observations: readonly WindowObservation[];
  /** share asked for, `Acceptance.confidence` */
  readonly confidence: number;
  readonly drift?: Drift;
  /** features of the setting with its power scaled; without it no margin is given */
  readonly scale?: (setting: Setting, deltaLogDose: number) => SettingFeatures;
}

/** Draws and slack of the first, cheap look at the nominal setting. */
const screenDraws = 120;
const screenSlack = 0.15;
/** Settings this close in rate count as equally fast; the more robust one is taken. */
const equalRateShare = 0.98;

/**
 * The fastest candidate that meets the rule of acceptance (`meetsConfidence`) under drift; among those within 2 %
 * of its rate the one with the highest 10 % point. A setting that failed a repeat is passed over unless more than
 * half of its repeats were good. null when none meets the rule. Rates in m²/s, `confidence` 0 to 1.
 * Throws InvalidInput on a rate, feature or confidence out of range. Source: own rule.
 */
export function recommend(input: RecommendInput): Recommendation | null {
  const { fit, drift, observations, confidence } = input;
  requireShare("confidence", confidence);
  for (const { areaRate } of input.candidates) requireFinite("areaRate", areaRate, "m2/s");
  const byRate = [...input.candidates].sort((a, b) => b.areaRate - a.areaRate);
  let best: { candidate: Candidate; lower: number; probabilities: Float64Array } | null = null;
  let fastest = 0;
  for (const candidate of byRate) {
    if (best !== null && candidate.areaRate < equalRateShare * fastest) break;
    const nominal = meanProbabilities(fit, candidate.features, Math.min(screenDraws, fit.draws));
    if (nominal.both < confidence - screenSlack) continue;
    const probabilities = robustProbabilities(fit, candidate, drift);
    const score = robustScore(probabilities);
    if (!meetsConfidence(score, confidence)) continue;
    const repeats = repeatsOf(candidate.setting, observations);
    if (repeats.burned > 0 && 2 * repeats.good <= repeats.burned) continue;
    if (best === null) fastest = candidate.areaRate;
    if (best === null || score.lower > best.lower) best = { candidate, lower: score.lower, probabilities };
  }
  if (best === null) return null;
  return describe(input, best.candidate, best.probabilities);
}

const noMargin: Margin = { logDose: null, powerPercent: null, nearestEdge: null };

function describe(input: RecommendInput, candidate: Candidate, probabilities: Float64Array): Recommendation {
  const { fit, scale } = input;
  const { setting, features } = candidate;
  const nominal = meanProbabilities(fit, features);
  const both = spreadOf(probabilities);
  const margin = scale === undefined ? noMargin : marginOf(fit, features, (delta) => scale(setting, delta));
  const repeats = repeatsOf(setting, input.observations);
  const proven = isProven(repeats);
  const words = [chanceWords(both, input.drift !== undefined), ...repeatWords(repeats), provenWords(repeats, proven)];
  if (scale !== undefined) words.push(marginWords(margin));
  return {
    setting,
    probabilityClean: nominal.clean,
    probabilityUndamaged: nominal.undamaged,
    probabilityBoth: both.mean,
    probabilityBothLow: both.low,
    probabilityBothHigh: both.high,
    margin,
    areaRate: candidate.areaRate,
    repeats: repeats.burned,
    repeatsGood: repeats.good,
    proven,
    words,
  };
}
