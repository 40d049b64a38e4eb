import { createRandom } from "#numerics";
import type { LaserSetup, Outcome, Setting, Trial, WindowMap, WindowObservation, WindowResult } from "#terms";
import {
  type Candidate,
  diagnose,
  evidenceCaveats,
  fitWindow,
  nextBatch,
  noWindowWords,
  recommend,
  windowMap,
  type WindowFit,
} from "#window";
import { candidateSettings, neighbour, runs } from "./candidates.ts";
import { type FeatureReader, featureReader } from "./features.ts";
import type { PartModel } from "./part-model.ts";
import { productionRate } from "./predict.ts";
import { axisValue } from "./two-edges.ts";

export interface EvaluateOptions {
  readonly seed: number;
  /** patches to name for the next batch */
  readonly nextCount?: number;
  /** settings to look at beside those burned */
  readonly candidates?: number;
}

/** ln power, ± at which a production day may drift: about 3 % of power and 1.5 % of focus. */
const DRIFT = [-0.05, 0, 0.05] as const;
const MAP_STEPS = 21;

/**
 * Joins what was seen on a trial with the physics: chance of clean and of undamaged over the settings, the recommended
 * setting with its margin, the patches to burn next. Without outcomes it says what physics and prior alone give.
 * Throws InvalidInput on values that are not finite.
 */
export function evaluateWindow(
  model: PartModel,
  setup: LaserSetup,
  trial: Trial,
  outcomes: readonly Outcome[],
  options: EvaluateOptions,
): WindowResult {
  const features = featureReader(model, setup);
  const observations = observationsOf(model, trial, outcomes, features);
  const burned = distinct(trial.patches.flatMap((p) => (p.setting ? [p.setting] : [])));
  const fit = fitWindow(observations, { seed: options.seed, reference: burned.map((s) => features(s)) });
  const candidates = candidatesOf(model, setup, burned, options, features);
  const drift = (setting: Setting) => DRIFT.map((d) => features(setting, d));
  const { confidence } = model.part.acceptance;
  const recommended = recommend({ fit, candidates, observations, confidence, drift, scale: features });
  const next = nextBatch({
    fit,
    candidates,
    observations,
    n: options.nextCount ?? 6,
    confidence,
    drift,
    choice: recommended ? { setting: recommended.setting, areaRate: recommended.areaRate } : null,
  });
  const words = recommended ? [...recommended.words, ...gainWords(next.expectedGain)] : noWindowWords(fit, candidates);
  return {
    recommended,
    next: next.patches,
    map:
      burned.length > 0
        ? mapOf(setup, fit, recommended?.setting ?? burned[0], trial, recommended?.setting ?? null, features)
        : null,
    diagnostics: diagnose(fit, observations),
    words,
    caveats: [
      ...evidenceCaveats(fit, observations),
      "Chances are for the next coupon patch like these; production parts may scatter more or less.",
    ],
  };
}

function gainWords(expectedGain: number | null): string[] {
  return expectedGain === null
    ? []
    : [`A faster setting may exist: expected gain ${Math.max(0, Math.round(100 * expectedGain))} %.`];
}

/** Every burned patch with a grade: clean by residue against the acceptance, undamaged by the metal's condition. */
export function observationsOf(
  model: PartModel,
  trial: Trial,
  outcomes: readonly Outcome[],
  features: FeatureReader,
): WindowObservation[] {
  const { acceptance } = model.part;
  const byPatch = new Map(outcomes.map((o) => [o.patch, o]));
  return trial.patches.flatMap((patch) => {
    const outcome = byPatch.get(patch.patch);
    if (!outcome || !patch.setting) return [];
    const tooHot =
      acceptance.metalTemperatureMax !== null &&
      outcome.temperature !== null &&
      outcome.temperature > acceptance.metalTemperatureMax;
    return [
      {
        patch: patch.patch,
        setting: patch.setting,
        features: features(patch.setting),
        clean: outcome.residueFraction === null ? null : outcome.residueFraction <= acceptance.residueMax,
        undamaged:
          outcome.metalCondition === null
            ? tooHot
              ? false
              : null
            : outcome.metalCondition <= acceptance.metalConditionMax && !tooHot,
      },
    ];
  });
}

function distinct(settings: readonly Setting[]): Setting[] {
  const seen = new Map(settings.map((s) => [JSON.stringify(s), s]));
  return [...seen.values()];
}

/** Settings to choose from: all burned ones, their neighbours, and some spread over the whole machine. */
function candidatesOf(
  model: PartModel,
  setup: LaserSetup,
  burned: readonly Setting[],
  options: EvaluateOptions,
  features: FeatureReader,
): Candidate[] {
  const wanted = options.candidates ?? 240;
  const random = createRandom(options.seed + 1);
  const list = [...burned];
  for (let i = 0; burned.length > 0 && list.length < wanted && i < 4 * wanted; i++) {
    const moved = neighbour(
      setup,
      burned[i % burned.length],
      [random.next(), random.next(), random.next(), random.next(), random.next()],
      0.35,
      null,
    );
    if (moved && runs(setup, moved)) list.push(moved);
  }
  if (burned.length === 0)
    list.push(...candidateSettings(setup, { count: wanted, seed: options.seed, powerMax: null }));
  return distinct(list).map((setting) => ({
    setting,
    features: features(setting),
    areaRate: productionRate(model, setup, setting),
  }));
}

/** J/cm² in J/m²: the axis is read by people. */
const J_PER_CM2 = 1e4;

/** Chance over peak fluence (pulsed) or dose of one pass (continuous) and speed, all else as in the given setting. */
function mapOf(
  setup: LaserSetup,
  fit: WindowFit,
  centre: Setting,
  trial: Trial,
  recommended: Setting | null,
  features: FeatureReader,
): WindowMap {
  const place = (setting: Setting) => ({ x: axisValue(setup, setting) / J_PER_CM2, y: setting.speed });
  const points = trial.patches.flatMap((p) => (p.setting ? [{ patch: p.patch, ...place(p.setting) }] : []));
  const at = place(centre);
  const ladder = (values: readonly number[], least: number, most: number) => {
    const from = Math.max(least, Math.min(...values) / 1.5);
    const to = Math.min(most, Math.max(...values) * 1.5);
    return Array.from({ length: MAP_STEPS }, (_, i) => from * (to / from) ** (i / (MAP_STEPS - 1)));
  };
  const map = windowMap({
    fit,
    featuresAt: (x, speed) => {
      const moved = { ...centre, speed };
      return features(moved, Math.log(x / (axisValue(setup, moved) / J_PER_CM2)));
    },
    xs: ladder([...points.map((p) => p.x), at.x], 0, Number.POSITIVE_INFINITY),
    ys: ladder([...points.map((p) => p.y), at.y], setup.speedMin, setup.speedMax),
    names: { x: setup.kind === "pulsed" ? "peak fluence (J/cm²)" : "dose of one pass (J/cm²)", y: "speed (m/s)" },
  });
  return { ...map, points, recommendedAt: recommended ? place(recommended) : null };
}
