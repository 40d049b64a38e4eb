import { setup as setupById } from "#library";
import type {
  Belief,
  Enquiry,
  EnquiryAnswer,
  LaserSetup,
  Outcome,
  PartAnswer,
  PartEnquiry,
  SetupVerdict,
  Trial,
  WindowResult,
} from "#terms";
import { carried, type KnownShelves } from "./beliefs.ts";
import { comparisonOf, twoSides } from "./compare.ts";
import { MODEL_VERSION } from "./model-version.ts";
import type { AdviceTask, PartTask, ResultOf, SurveyTask, WindowTask } from "./part-task.ts";
import { rankVerdicts } from "./rank.ts";
import { triage } from "./triage.ts";
import { type Asking, workFlow } from "./work-flow.ts";

export interface TrialEvidence {
  readonly trial: Trial;
  readonly outcomes: readonly Outcome[];
}

export interface AnswerOptions {
  readonly seed: number;
  readonly drawCount: number;
  readonly setups: readonly LaserSetup[];
  readonly trials: readonly TrialEvidence[];
  /** what earlier trials taught, none of those above among them; what of it counts stands among the assumptions */
  readonly beliefs?: readonly Belief[];
  /** the library that the beliefs are read with; ours as it comes where left out */
  readonly shelves?: KnownShelves;
  /** share of wrong grades, where a gauge study knows it */
  readonly lapse?: number;
}

/** Two kinds of tasks asked for in one batch, so that the threads have something to do to the end. */
function* ask<A extends PartTask, B extends PartTask>(
  first: readonly A[],
  second: readonly B[],
): Asking<[ResultOf<A>[], ResultOf<B>[]]> {
  const results = yield [...first, ...second];
  return [results.slice(0, first.length) as ResultOf<A>[], results.slice(first.length) as ResultOf<B>[]];
}

/**
 * The whole answer of an enquiry as a flow of tasks: triage, survey and the window of every trial first, then what
 * depends on the survey: comparison and advice. Tasks name parts by their place in the enquiry.
 */
export function* answerFlow(enquiry: Enquiry, options: AnswerOptions): Asking<EnquiryAnswer> {
  const verdictOf = enquiry.parts.map(triage);
  const open = enquiry.parts.flatMap((_, i) => (verdictOf[i].verdict === "declined" ? [] : [i]));
  const windowTasks = open.flatMap((part) => windowTasksOf(enquiry, part, options));
  const surveyTasks = open.flatMap((part) =>
    options.setups.map((setup): SurveyTask => ({ kind: "survey", part, setup, site: enquiry.site, powerMax: null })),
  );
  // Windows take longest: begun first, they do not leave one thread working alone at the end.
  const [windows, surveys] = yield* ask(windowTasks, surveyTasks);
  const ranked = new Map(
    open.map((part) => [part, rankVerdicts(surveys.filter((_, i) => surveyTasks[i].part === part))]),
  );

  const sides = new Map(open.map((part) => [part, twoSides(ranked.get(part) as SetupVerdict[])]));
  const againTasks = open.flatMap((part) => {
    const { above, meanPower } = sides.get(part) as ReturnType<typeof twoSides>;
    return above.map(
      (v): SurveyTask => ({
        kind: "survey",
        part,
        setup: setupOf(options.setups, v.setupId),
        site: enquiry.site,
        powerMax: meanPower,
      }),
    );
  });
  const adviceTasks = open.flatMap((part): AdviceTask[] => {
    const lead = ranked.get(part)?.find((v) => v.best !== null);
    if (!lead?.best) return [];
    return [{ kind: "advice", part, setup: setupOf(options.setups, lead.setupId), setting: lead.best.setting }];
  });
  const [again, advice] = yield* ask(againTasks, adviceTasks);

  const parts = enquiry.parts.map((asked, i): PartAnswer => {
    const part = withCarried(asked, options);
    const verdicts = ranked.get(i);
    const side = sides.get(i);
    if (!verdicts || !side)
      return { part, triage: verdictOf[i], verdicts: [], comparison: null, advice: [], trials: [] };
    const held = again.filter((_, k) => againTasks[k].part === i);
    return {
      part,
      triage: verdictOf[i],
      verdicts,
      comparison: comparisonOf(side, held),
      advice: advice[adviceTasks.findIndex((t) => t.part === i)] ?? [],
      trials: trialsOf(options.trials, part.id, windowTasks, windows),
    };
  });
  return { enquiry, parts, seed: options.seed, drawCount: options.drawCount, modelVersion: MODEL_VERSION };
}

/** The part with what was carried said beside what was assumed: both stand behind every number of its answer. */
function withCarried(part: PartEnquiry, { beliefs = [], shelves }: AnswerOptions): PartEnquiry {
  const { words } = carried(beliefs, part, { shelves });
  return words.length === 0 ? part : { ...part, assumptions: [...(part.assumptions ?? []), ...words] };
}

function windowTasksOf(enquiry: Enquiry, part: number, options: AnswerOptions): WindowTask[] {
  const { lapse } = options;
  return options.trials
    .filter(({ trial, outcomes }) => trial.partId === enquiry.parts[part].id && outcomes.length > 0)
    .map(({ trial, outcomes }) => ({
      kind: "window",
      part,
      setup: setupOf(options.setups, trial.setupId),
      trial,
      outcomes,
      ...(lapse === undefined ? {} : { lapse }),
    }));
}

function trialsOf(
  evidence: readonly TrialEvidence[],
  partId: string,
  tasks: readonly WindowTask[],
  windows: readonly WindowResult[],
): PartAnswer["trials"] {
  return evidence
    .filter(({ trial }) => trial.partId === partId)
    .map(({ trial, outcomes }) => ({
      trial,
      outcomes,
      window: windows[tasks.findIndex((t) => t.trial === trial)] ?? null,
    }));
}

/** Works a whole enquiry on this thread, task after task. */
export function answerEnquiry(enquiry: Enquiry, options: AnswerOptions): EnquiryAnswer {
  const { seed, drawCount, beliefs = [], shelves } = options;
  const work = { parts: enquiry.parts, seed, drawCount, beliefs, ...(shelves === undefined ? {} : { shelves }) };
  return workFlow(answerFlow(enquiry, options), work);
}

function setupOf(setups: readonly LaserSetup[], id: string): LaserSetup {
  return setups.find((s) => s.id === id) ?? setupById(id);
}
