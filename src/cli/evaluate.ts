import { parseEnquiry, type RecordedOutcomes } from "#contract";
import type { Library } from "#library";
import type { Enquiry, LaserSetup, PartEnquiry, Trial } from "#terms";
import { type Evaluation, evaluateTrial, evidenceModel, type MapAxes, type PartModel } from "#workflows";
import { keptBook } from "./book-file.ts";
import { readJson } from "./files.ts";
import { lapseOf } from "./lapse.ts";
import { knownBeliefs } from "./known.ts";
import { loadLibrary, loadOutcomes, loadTrial, modelOf, partOf, type PhysicsFlags } from "./load.ts";
import { progressLine } from "./progress.ts";

export interface EvaluateFlags extends PhysicsFlags {
  readonly trial: string;
  readonly outcomes: string;
  /** settings to look at beside those burned */
  readonly rays?: number;
  /** per cent */
  readonly wrongGrades?: number;
  /** files of graded coupons */
  readonly gradings?: readonly string[];
  readonly json?: boolean;
}

/** A trial with what its outcomes taught. */
export interface Evaluated {
  readonly library: Library;
  readonly enquiry: Enquiry;
  readonly part: PartEnquiry;
  readonly trial: Trial;
  readonly setup: LaserSetup;
  readonly model: PartModel;
  readonly recorded: RecordedOutcomes;
  readonly evaluation: Evaluation;
  /** file that the solved edges were kept in, where one was written */
  readonly kept: string | null;
}

/** Settings of a first look by the settings wanted: a short list needs no long search. */
export const looksFor = (rays: number | undefined): { readonly looks?: number } =>
  rays === undefined || rays >= 40 ? {} : { looks: Math.max(24, 6 * rays) };

/** Reads a trial and its outcomes and joins them with the physics; `map`: over which two controls, dose and speed when left out. */
export async function evaluateFiles(flags: EvaluateFlags, map?: (setup: LaserSetup) => MapAxes): Promise<Evaluated> {
  const library = await loadLibrary(flags.library);
  const enquiry = parseEnquiry(await readJson(flags.enquiry, "enquiry"), library);
  const trial = await loadTrial(flags.trial);
  const part = partOf(enquiry, trial);
  const lapse = await lapseOf(flags);
  const setup = library.setup(trial.setupId);
  const axes = map?.(setup);
  const recorded = await loadOutcomes(flags.outcomes, trial, part);
  const model = evidenceModel(modelOf(part, flags, await knownBeliefs(flags.known, [trial.id])));
  const progress = progressLine(flags);
  try {
    const { book, keep } = await keptBook(flags.trial, model, setup, trial, {
      ...(flags.rays === undefined ? {} : { rays: flags.rays }),
      ...looksFor(flags.rays),
      onProgress: (done, of) => progress.say(`${part.name}, ${setup.name}: edges of setting ${done} of ${of}`),
    });
    progress.say(`${part.name}, ${setup.name}: weighing ${recorded.accepted.length} outcomes`);
    const evaluation = evaluateTrial(model, setup, trial, recorded.accepted, {
      seed: flags.seed,
      draws: model.draws.length,
      book,
      ...lapse,
      ...(axes === undefined ? {} : { map: axes }),
    });
    return { library, enquiry, part, trial, setup, model, recorded, evaluation, kept: await keep() };
  } finally {
    progress.clear();
  }
}
