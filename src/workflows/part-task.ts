import type { MetalAnswers } from "#patch";
import type {
  Belief,
  LaserSetup,
  MeasurementAdvice,
  Outcome,
  PartEnquiry,
  Setting,
  SetupVerdict,
  SiteLimits,
  Trial,
  WindowResult,
} from "#terms";
import { measurementAdvice } from "./advice.ts";
import type { KnownShelves } from "./beliefs.ts";
import { evaluateWindow } from "./evaluate-window.ts";
import { createPartModel, type PartModel } from "./part-model.ts";
import type { MapSpec } from "./map-spec.ts";
import { type MapBand, mapBand } from "./physics-map.ts";
import { type Odds, oddsOf } from "./odds.ts";
import { surveySetup } from "./survey.ts";

/** What each kind of task gives back. */
export interface TaskResults {
  readonly survey: SetupVerdict;
  readonly advice: MeasurementAdvice[];
  readonly window: WindowResult;
  readonly odds: Odds[];
  readonly band: MapBand;
}

interface OnPart<K extends keyof TaskResults> {
  readonly kind: K;
  /** place of the part in the list that the tasks run over */
  readonly part: number;
  readonly setup: LaserSetup;
}

/** Searches one set-up. */
export interface SurveyTask extends OnPart<"survey"> {
  readonly site: SiteLimits;
  readonly powerMax: number | null;
}

/** Names the measurements that would narrow the answer at one setting. */
export interface AdviceTask extends OnPart<"advice"> {
  readonly setting: Setting;
}

/** Joins what a trial showed with the physics. */
export interface WindowTask extends OnPart<"window"> {
  readonly trial: Trial;
  readonly outcomes: readonly Outcome[];
  /** share of wrong grades, where a gauge study knows it */
  readonly lapse?: number;
}

/** Chances of each setting of a list, by the full evaluation. */
export interface OddsTask extends OnPart<"odds"> {
  readonly settings: readonly Setting[];
}

/** One band of rows of a map. */
export interface BandTask extends OnPart<"band"> {
  readonly spec: MapSpec;
  readonly band: number;
}

/**
 * A piece of work on one part that stands by itself: plain data in, plain data out, so that it can be worked here, on
 * another thread or on another machine with the same numbers.
 */
export type PartTask = SurveyTask | AdviceTask | WindowTask | OddsTask | BandTask;
export type ResultOf<T extends PartTask> = TaskResults[T["kind"]];

/** What a worker needs to build the models of the parts. */
export interface PartWork {
  readonly parts: readonly PartEnquiry[];
  readonly seed: number;
  readonly drawCount: number;
  /** what earlier trials taught */
  readonly beliefs?: readonly Belief[];
  /** the library that the beliefs are read with; ours as it comes where left out */
  readonly shelves?: KnownShelves;
}

/** Works tasks one by one; each part's model is built when first asked for and kept. */
export function taskRunner(work: PartWork): <T extends PartTask>(task: T) => ResultOf<T> {
  const answers = new Map<string, MetalAnswers>();
  const models = new Map<number, PartModel>();
  const modelOf = (part: number): PartModel => {
    const known = models.get(part);
    if (known) return known;
    const { seed, drawCount, beliefs = [], shelves } = work;
    const built = createPartModel(work.parts[part], { seed, drawCount, answers, beliefs, shelves });
    models.set(part, built);
    return built;
  };
  return (task) => perform(modelOf(task.part), task) as ResultOf<typeof task>;
}

function perform(model: PartModel, task: PartTask): TaskResults[keyof TaskResults] {
  switch (task.kind) {
    case "survey":
      return surveySetup(model, task.setup, task.site, task.powerMax);
    case "advice":
      return measurementAdvice(model, task.setup, task.setting);
    case "window":
      return evaluateWindow(model, task.setup, task.trial, task.outcomes, {
        seed: model.seed,
        ...(task.lapse === undefined ? {} : { lapse: task.lapse }),
      });
    case "odds":
      return oddsOf(model, task.setup, task.settings);
    case "band":
      return mapBand(model, task.setup, task.spec, task.band);
  }
}
