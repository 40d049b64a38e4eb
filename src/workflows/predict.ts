import { areaRate, beamState, checkSetting } from "#beam";
import { quantile } from "#numerics";
import { fineCell, isApproximateCell, type PatchPlan, patchPlan, predictPatch, warmingOf } from "#patch";
import type { LaserSetup, MetalConditionGrade, PatchResult, Prediction, Setting, Spread } from "#terms";
import { caveatsOf } from "./caveats.ts";
import { MODEL_VERSION } from "./model-version.ts";
import { partHeat, partHeatWords } from "./part-heat.ts";
import type { PartModel } from "./part-model.ts";
import { isClean, isUndamaged, probitScore, softClean, softUndamaged } from "./scores.ts";
import { sourcesOf } from "./sources-of.ts";

/** m, side of a trial patch: warming is worked out for it, because its lines come back soonest. */
export const PATCH_SIDE = 15e-3;

/** Lays out one setting for all draws of a part; `quick`: on fewer points, to look through many settings. */
export function planOf(model: PartModel, setup: LaserSetup, setting: Setting, quick = false): PatchPlan {
  const beam = beamState(setup, setting);
  const warming = warmingOf(setup, setting, beam, model.central.metal, model.stack.metalThickness, {
    width: PATCH_SIDE,
    height: PATCH_SIDE,
  });
  return patchPlan(setup, setting, beam, warming, quick);
}

/** Results of one setting over the first `count` draws (all when left out). */
export function patchResults(
  model: PartModel,
  plan: PatchPlan,
  count = model.draws.length,
  fluenceScale = 1,
): PatchResult[] {
  const results: PatchResult[] = [];
  for (let i = 0; i < Math.min(count, model.draws.length); i++)
    results.push(predictPatch(model.draws[i], plan, model.part.acceptance, fluenceScale));
  return results;
}

/** The same, on the finer cell wherever the plan's own would only be approximate. */
function carefulResults(model: PartModel, plan: PatchPlan, count: number): PatchResult[] {
  let fine: PatchPlan | null = null;
  return patchResults(model, plan, count).map((result, i) => {
    if (!isApproximateCell(plan, result.residueFraction)) return result;
    fine ??= { ...plan, cell: fineCell(plan) };
    return predictPatch(model.draws[i], fine, model.part.acceptance);
  });
}

/**
 * Predicts one setting on one part: what is left, what happens to the metal, how sure that is, at what rate.
 * Throws InvalidInput when the set-up cannot run the setting.
 */
export function predict(model: PartModel, setup: LaserSetup, setting: Setting, count = model.draws.length): Prediction {
  checkSetting(setup, setting);
  const plan = planOf(model, setup, setting);
  const draws = carefulResults(model, plan, count);
  const areaRate = productionRate(model, setup, setting);
  const { acceptance } = model.part;
  const n = draws.length;
  const clean = draws.map((d) => isClean(d, acceptance));
  const undamaged = draws.map((d) => isUndamaged(d, acceptance));
  const both = draws.filter((_, i) => clean[i] && undamaged[i]).length;
  const shares = [0, 0, 0, 0, 0];
  for (const d of draws) shares[d.metalCondition] += 1 / n;
  return {
    setupId: setup.id,
    setting,
    beam: plan.beam,
    residueFraction: spread(draws.map((d) => d.residueFraction)),
    metalPeakTemperature: spread(draws.map((d) => d.metalPeakTemperature)),
    meltDepth: spread(draws.map((d) => d.meltDepth)),
    metalCondition: medianGrade(shares),
    metalConditionShares: shares,
    // One more of each kind than was seen: a few dozen versions of the physics never make a certainty.
    probabilityClean: (clean.filter(Boolean).length + 0.5) / (n + 1),
    probabilityUndamaged: (undamaged.filter(Boolean).length + 0.5) / (n + 1),
    probabilityBoth: (both + 0.5) / (n + 1),
    cleanScore: probitScore(mean(draws.map((d) => softClean(d, acceptance)))),
    undamagedScore: probitScore(mean(draws.map((d) => softUndamaged(d, acceptance)))),
    areaRate,
    draws,
    caveats: [...caveatsOf(model, setup, setting, plan, draws), ...partHeatWords(partHeat(model, plan, areaRate))],
    sources: sourcesOf(model),
    modelVersion: MODEL_VERSION,
  };
}

/** m²/s over one scan field or the part's own area, whichever is smaller, turn-rounds and field changes included. */
export function productionRate(model: PartModel, setup: LaserSetup, setting: Setting): number {
  const side = Math.sqrt(model.part.area);
  const field = setup.lenses.find((l) => l.id === setting.lens)?.fieldSide ?? side;
  const width = Math.max(Math.min(side, field), setting.lineSpacing);
  return areaRate(setup, setting, { width, height: width }).rate;
}

function mean(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0) / values.length;
}

function spread(values: readonly number[]): Spread {
  return { median: quantile(values, 0.5), low: quantile(values, 0.05), high: quantile(values, 0.95) };
}

function medianGrade(shares: readonly number[]): MetalConditionGrade {
  let sum = 0;
  for (let g = 0; g < shares.length; g++) {
    sum += shares[g];
    if (sum >= 0.5 - 1e-9) return g as MetalConditionGrade;
  }
  return 4;
}
