import { setup as setupById } from "#library";
import type { MetalAnswers } from "#patch";
import type { Enquiry, EnquiryAnswer, LaserSetup, Outcome, PartAnswer, PartEnquiry, Trial } from "#terms";
import { measurementAdvice } from "./advice.ts";
import { comparePulsedContinuous } from "./compare.ts";
import { evaluateWindow } from "./evaluate-window.ts";
import { MODEL_VERSION } from "./model-version.ts";
import { createPartModel } from "./part-model.ts";
import { surveySetups } from "./survey.ts";
import { triage } from "./triage.ts";

export interface TrialEvidence {
  readonly trial: Trial;
  readonly outcomes: readonly Outcome[];
}

export interface AnswerOptions {
  readonly seed: number;
  readonly drawCount: number;
  readonly setups: readonly LaserSetup[];
  readonly trials: readonly TrialEvidence[];
  readonly onProgress?: (words: string) => void;
}

/** Works a whole enquiry: triage, survey, comparison, advice, and the window of every trial, part by part. */
export function answerEnquiry(enquiry: Enquiry, options: AnswerOptions): EnquiryAnswer {
  const answers = new Map<string, MetalAnswers>();
  return {
    enquiry,
    parts: enquiry.parts.map((part) => answerPart(enquiry, part, options, answers)),
    seed: options.seed,
    drawCount: options.drawCount,
    modelVersion: MODEL_VERSION,
  };
}

function answerPart(
  enquiry: Enquiry,
  part: PartEnquiry,
  options: AnswerOptions,
  answers: Map<string, MetalAnswers>,
): PartAnswer {
  const verdict = triage(part);
  if (verdict.verdict === "declined")
    return { part, triage: verdict, verdicts: [], comparison: null, advice: [], trials: [] };
  options.onProgress?.(`${part.name}: physics`);
  const model = createPartModel(part, { seed: options.seed, drawCount: options.drawCount, answers });
  const verdicts = surveySetups(model, options.setups, enquiry.site, {
    onProgress: (done, of) => options.onProgress?.(`${part.name}: set-up ${done} of ${of}`),
  });
  const comparison = comparePulsedContinuous(model, options.setups, enquiry.site, verdicts);
  const leader = verdicts.find((v) => v.best !== null);
  const advice = leader?.best
    ? measurementAdvice(model, setupOf(options.setups, leader.setupId), leader.best.setting)
    : [];
  const trials = options.trials
    .filter((t) => t.trial.partId === part.id)
    .map(({ trial, outcomes }) => {
      options.onProgress?.(`${part.name}: window of trial ${trial.id}`);
      const setup = setupOf(options.setups, trial.setupId);
      return {
        trial,
        outcomes,
        window: outcomes.length > 0 ? evaluateWindow(model, setup, trial, outcomes, { seed: options.seed }) : null,
      };
    });
  return { part, triage: verdict, verdicts, comparison, advice, trials };
}

function setupOf(setups: readonly LaserSetup[], id: string): LaserSetup {
  return setups.find((s) => s.id === id) ?? setupById(id);
}
