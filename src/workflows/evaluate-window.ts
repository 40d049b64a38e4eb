import { calibrate, type Posterior } from "#calibration";
import type {
  DriftSpread,
  LaserSetup,
  NextPatch,
  Outcome,
  Recommendation,
  Setting,
  Trial,
  TrialStop,
  WindowMap,
  WindowResult,
} from "#terms";
import {
  type Batch,
  type Choice,
  type ChoiceTable,
  chooseFastest,
  choiceAt,
  choiceTable,
  likeliest,
  nextPicks,
  nothingFoundWords,
  pickWords,
  productionDrift,
  rayTruth,
  repeatsAmong,
  sameSetting,
  stopVerdict,
  stopWords,
  truthDraws,
} from "#window";
import { controlPlot, type MapAxes } from "./control-plot.ts";
import { type EdgeBook, edgeBook } from "./edge-book.ts";
import { checkFit } from "./fit-checks.ts";
import { learntProperties, learntShifts, pinnedNumbers } from "./learnt.ts";
import { createPartModel, type PartModel } from "./part-model.ts";
import { carried } from "./beliefs.ts";
import { recommendationOf } from "./recommendation.ts";
import { powerOn, readTrial, type TrialEvidenceRead } from "./trial-evidence.ts";
import { windowPlot } from "./window-plot.ts";

/** Most versions of the physics that evidence is weighed over, and how many more than a prediction has. */
export const EVIDENCE_DRAWS = 128;
const EVIDENCE_FACTOR = 2;
/** Settings looked at beside those burned. */
export const EVIDENCE_RAYS = 48;

export interface EvaluateOptions {
  readonly seed: number;
  /** patches to name for the next batch */
  readonly nextCount?: number;
  /** settings to look at beside those burned */
  readonly rays?: number;
  /** settings of the first quick look that those are chosen from */
  readonly looks?: number;
  /** versions of the physics to weigh; fewer are quick and rough */
  readonly draws?: number;
  /** a book solved before on the same part and set-up, by a model that `evidenceModel` gives */
  readonly book?: EdgeBook;
  readonly drift?: DriftSpread;
  /** share of wrong grades, where a gauge study knows it */
  readonly lapse?: number;
  /** two controls that the map runs along, in place of dose and speed */
  readonly map?: MapAxes;
  /** rays of the book that are solved, and how many there are */
  readonly onProgress?: (done: number, of: number) => void;
}

/** The part with as many versions of the physics as evidence asks for: twice those of a prediction, 128 at most. */
export function evidenceModel(model: PartModel, asked?: number): PartModel {
  const draws = asked ?? Math.min(EVIDENCE_DRAWS, EVIDENCE_FACTOR * model.draws.length);
  if (model.draws.length >= draws) return model;
  return createPartModel(model.part, { seed: model.seed, drawCount: draws, beliefs: model.beliefs });
}

/**
 * The book that an evaluation stands on: the settings burned and those that may turn out fastest. It does not depend on the
 * outcomes, so that one book serves all evaluations of a trial. `model` as `evidenceModel` gives it.
 */
export function trialBook(
  model: PartModel,
  setup: LaserSetup,
  trial: Trial,
  options: Pick<EvaluateOptions, "rays" | "looks" | "onProgress">,
): EdgeBook {
  const include = runnable(trial);
  return edgeBook(model, setup, {
    burnedOnly: true,
    seed: model.seed,
    rays: (options.rays ?? EVIDENCE_RAYS) + include.length,
    include,
    ...(options.looks === undefined ? {} : { looks: options.looks }),
    ...(options.onProgress === undefined ? {} : { onProgress: options.onProgress }),
  });
}

/** Everything that an evaluation worked out, for those who go on from it. */
export interface Evaluation {
  readonly result: WindowResult;
  readonly model: PartModel;
  readonly book: EdgeBook;
  readonly posterior: Posterior;
  readonly table: ChoiceTable;
}

/**
 * Joins what was seen on a trial with the physics: what the physics may still be, chance of clean and of undamaged over the
 * settings, the recommended setting with its margin, the patches to burn next and whether to stop. Without outcomes it says
 * what physics and prior alone give. Throws InvalidInput on values that are no numbers and on another set-up's trial.
 */
export function evaluateWindow(
  model: PartModel,
  setup: LaserSetup,
  trial: Trial,
  outcomes: readonly Outcome[],
  options: EvaluateOptions,
): WindowResult {
  return evaluateTrial(model, setup, trial, outcomes, options).result;
}

export function evaluateTrial(
  given: PartModel,
  setup: LaserSetup,
  trial: Trial,
  outcomes: readonly Outcome[],
  options: EvaluateOptions,
): Evaluation {
  const model = evidenceModel(given, options.draws);
  const drift = options.drift ?? productionDrift;
  const { acceptance } = model.part;
  const burnedSettings = runnable(trial);
  const book = options.book ?? trialBook(model, setup, trial, options);
  const read = readTrial(book, setup, acceptance, trial, outcomes);
  const earlier = carried(model.beliefs, model.part, { setup, shelves: model.shelves });
  const prior = { kind: setup.kind, draws: book.draws, seed: options.seed, shifts: earlier.shifts };
  const before = calibrate({ ...prior, patches: [] });
  const posterior = calibrate({
    ...prior,
    patches: read.patches,
    ...(options.lapse === undefined ? {} : { lapse: options.lapse }),
  });
  const truths = truthDraws(posterior);
  const table = withBurned(choiceTable(truths, book.rays, drift), book, setup, read, posterior, drift);
  const repeats = (setting: Setting) => repeatsAmong(setting, read.patches, read.settings);
  const choice = chooseFastest(table, acceptance.confidence, repeats);
  const batch = nextPicks({
    table,
    n: options.nextCount ?? 6,
    choice,
    repeats,
    patches: read.patches.length,
    burned: (s) => read.settings.some((b) => sameSetting(b, s)),
  });
  const stop = stopOf(table, read, choice, batch, acceptance.confidence);
  const chosen = choice && recommendationOf(setup, book, posterior, choice, drift, repeats);
  const recommended = chosen?.recommended ?? null;
  const shown = recommended?.setting ?? likeliest(table)?.setting ?? burnedSettings[0];
  const ray = shown && (book.rays.find((r) => sameRay(r.setting, shown)) ?? book.solve(shown, false));
  const pinned = ray ? pinnedNumbers(setup, ray, before, posterior) : [];
  const checks = checkFit(posterior, pinned, options.seed);
  const result: WindowResult = {
    recommended,
    next: batch.picks.map(
      (pick): NextPatch => ({
        setting: pick.choice.setting,
        probabilityClean: pick.choice.clean,
        probabilityUndamaged: pick.choice.undamaged,
        reason: pickWords(pick, choice),
      }),
    ),
    map: mapOf(setup, book, posterior, shown, { drift, trial, recommended, axes: options.map }),
    diagnostics: { ...countsOf(read), ...checks.diagnostics },
    stop,
    learnt: {
      pinned,
      properties: learntProperties(model, posterior)
        .sort((a, b) => a.spreadLeft - b.spreadLeft)
        .slice(0, 12),
      shifts: learntShifts(posterior),
      words: checks.words,
    },
    words: recommended
      ? [...recommended.words, ...stop.words]
      : [...nothingFoundWords(table, stop.verdict), ...stop.words],
    caveats: [
      ...read.caveats,
      ...checks.caveats,
      ...earlier.words,
      ...(chosen?.notes ?? []),
      "Chances are for production under the drift stated; scatter from coupon to coupon is kept apart and is not in them.",
    ],
  };
  return { result, model, book, posterior, table };
}

function runnable(trial: Trial): Setting[] {
  return [
    ...new Map(
      trial.patches.flatMap((p) => (p.setting ? [[JSON.stringify(p.setting), p.setting] as const] : [])),
    ).values(),
  ];
}

/** Settings on one ray differ by power alone. */
function sameRay(a: Setting, b: Setting): boolean {
  return sameSetting({ ...a, level: 1, power: 1 }, { ...b, level: 1, power: 1 });
}

/** The burned settings themselves stand among the choices: what was seen to work can be recommended as it was burned. */
function withBurned(
  table: ChoiceTable,
  book: EdgeBook,
  setup: LaserSetup,
  read: TrialEvidenceRead,
  posterior: Posterior,
  drift: DriftSpread,
): ChoiceTable {
  const truths = truthDraws(posterior);
  const own = new Map(read.settings.map((s, i) => [JSON.stringify(s), i]));
  const burned = [...own.values()].map((i) => {
    const patch = read.patches[i]!;
    const family = book.rays.indexOf(patch.ray);
    const choice = choiceAt(rayTruth(truths, patch.ray, drift), powerOn(setup, patch.ray, read.settings[i]!), family);
    return { ...choice, setting: read.settings[i]! };
  });
  return { draws: table.draws, choices: [...burned, ...table.choices] };
}

function stopOf(
  table: ChoiceTable,
  read: TrialEvidenceRead,
  choice: Choice | null,
  batch: Batch,
  confidence: number,
): TrialStop {
  const repeats = choice && repeatsAmong(choice.setting, read.patches, read.settings);
  const bestShare = table.choices.reduce((most, c) => Math.max(most, c.share), 0);
  const state = { patches: read.patches.length, bestShare, repeats, gain: batch.gain };
  const verdict = stopVerdict(state);
  return { verdict, expectedGain: batch.gain, bestShare, words: stopWords(state, verdict, confidence) };
}

function mapOf(
  setup: LaserSetup,
  book: EdgeBook,
  posterior: Posterior,
  shown: Setting | undefined,
  { drift, trial, recommended, axes }: PlotOf & { readonly axes: MapAxes | undefined },
): WindowMap | null {
  const at = recommended?.setting ?? null;
  if (shown === undefined) return null;
  if (axes !== undefined) return controlPlot(setup, book, posterior, shown, { ...axes, drift, trial, recommended: at });
  return runnable(trial).length > 0 ? windowPlot(setup, book, posterior, shown, drift, trial, at) : null;
}

interface PlotOf {
  readonly drift: DriftSpread;
  readonly trial: Trial;
  readonly recommended: Recommendation | null;
}

function countsOf(read: TrialEvidenceRead): Pick<WindowResult["diagnostics"], "patches" | "clean" | "damaged"> {
  const count = (holds: (p: TrialEvidenceRead["patches"][number]) => boolean) => read.patches.filter(holds).length;
  return {
    patches: read.patches.length,
    clean: count((p) => p.residue !== null && p.residue[0] >= 0.5),
    damaged: count((p) => p.metal !== null && p.metal[2] >= 0.5),
  };
}
