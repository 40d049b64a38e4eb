import type { LaserSetup, Setting, SettingFeatures } from "#terms";
import type { PartModel } from "./part-model.ts";
import { patchResults, planOf } from "./predict.ts";
import { probitScore, softClean, softUndamaged } from "./scores.ts";
import { axisValue } from "./two-edges.ts";

/** Draws behind the physics scores of a setting: enough for a smooth score, few enough for hundreds of settings. */
export const FEATURE_DRAWS = 32;

/** Physical groups and physics scores of a setting, its power scaled by exp(lnScale). Remembered per setting. */
export type FeatureReader = (setting: Setting, lnScale?: number) => SettingFeatures;

/** A reader of features for one part on one set-up; it never works out the same setting twice. */
export function featureReader(model: PartModel, setup: LaserSetup): FeatureReader {
  const known = new Map<string, SettingFeatures>();
  return (setting, lnScale = 0) => {
    const key = `${JSON.stringify(setting)}@${lnScale.toFixed(4)}`;
    const before = known.get(key);
    if (before) return before;
    const plan = planOf(model, setup, setting);
    const results = patchResults(model, plan, FEATURE_DRAWS, Math.exp(lnScale));
    const { acceptance } = model.part;
    let clean = 0;
    let undamaged = 0;
    for (const r of results) {
      clean += softClean(r, acceptance) / results.length;
      undamaged += softUndamaged(r, acceptance) / results.length;
    }
    const { beam } = plan;
    const features: SettingFeatures = {
      logDose: Math.log(axisValue(setup, setting)) + lnScale,
      logOverlap: Math.log(beam.eventsPerPoint / setting.passes),
      logPasses: Math.log(setting.passes),
      logTime: Math.log(beam.onTime ?? beam.dwell ?? 1),
      cleanScore: probitScore(clean),
      undamagedScore: probitScore(undamaged),
    };
    known.set(key, features);
    return features;
  };
}
