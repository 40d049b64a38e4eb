import { answerOnThreads } from "#compute";
import {
  answerToWire,
  type OutcomeWire,
  outcomeFromWire,
  resolveEnquiry,
  trialFromWire,
  type EnquiryFile,
  type TrialWire,
  exampleShop,
} from "#contract";
import { createLibrary } from "#library";
import type { GradedFigure, ReportModel } from "#report";
import { InvalidInput } from "#units";
import { partCautions, reportAnswer } from "#workflows";

export interface AnswerWork {
  readonly enquiry: EnquiryFile;
  readonly trials: readonly { readonly trial: TrialWire; readonly outcomes: readonly OutcomeWire[] }[];
  /** coupons read from photographs, as the report shows them */
  readonly graded: readonly GradedFigure[];
  readonly seed: number;
  readonly draws: number;
  /** share of wrong grades, where readings that people looked at teach it */
  readonly lapse?: number;
  readonly dateText: string;
  readonly documentId: string;
}

export type AnswerMade =
  | { readonly answer: unknown; readonly report: ReportModel; readonly modelVersion: string }
  | { readonly refused: string };

/** The whole answer of an enquiry as plain data, so that it can be worked out on another thread. */
export async function workAnswer(work: AnswerWork): Promise<AnswerMade> {
  try {
    const library = createLibrary([]);
    const enquiry = resolveEnquiry(work.enquiry, library);
    const trials = work.trials.map(({ trial, outcomes }) => ({
      trial: trialFromWire(trial),
      outcomes: outcomes.map(outcomeFromWire),
    }));
    const answer = await answerOnThreads(enquiry, {
      seed: work.seed,
      drawCount: work.draws,
      setups: library.setups,
      trials,
      ...(work.lapse === undefined ? {} : { lapse: work.lapse }),
    });
    const report = reportAnswer(answer, {
      setups: library.setups,
      dateText: work.dateText,
      documentId: work.documentId,
      approver: null,
      graded: work.graded,
      shop: exampleShop(),
    });
    const wire = answerToWire(
      answer,
      (partId) => (id) =>
        partCautions(enquiry.parts.find((p) => p.id === partId) ?? enquiry.parts[0], library.setup(id)),
    );
    return { answer: wire, report, modelVersion: answer.modelVersion };
  } catch (error) {
    if (error instanceof InvalidInput) return { refused: error.message };
    throw error;
  }
}
