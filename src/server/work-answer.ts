import { answerOnThreads } from "#compute";
import {
  answerToWire,
  type OutcomeWire,
  outcomeFromWire,
  resolveEnquiry,
  trialFromWire,
  type EnquiryFile,
  type TrialWire,
  type DetailsWire,
  detailsToWire,
  parseShop,
  type ShopFile,
} from "#contract";
import { createLibrary, type LibraryFile } from "#library";
import type { GradedFigure, ReportModel } from "#report";
import type { EnquiryAnswer } from "#terms";
import { InvalidInput } from "#units";
import { answerDetails, paperBasis, partCautions, reportAnswer } from "#workflows";

export interface AnswerWork {
  readonly kind: "answer";
  /** the store's own library files, in the order in which they are taken in */
  readonly library: readonly LibraryFile[];
  readonly enquiry: EnquiryFile;
  readonly trials: readonly { readonly trial: TrialWire; readonly outcomes: readonly OutcomeWire[] }[];
  /** coupons read from photographs, as the report shows them */
  readonly graded: readonly GradedFigure[];
  /** the shop's own figures; what they leave out is an invented example figure */
  readonly shop: ShopFile;
  readonly seed: number;
  readonly draws: number;
  /** share of wrong grades, where readings that people looked at teach it */
  readonly lapse?: number;
  readonly dateText: string;
  readonly documentId: string;
}

export type AnswerMade =
  | {
      readonly answer: unknown;
      readonly report: ReportModel;
      readonly details: DetailsWire;
      /** what papers are written from */
      readonly basis: EnquiryAnswer;
      readonly modelVersion: string;
    }
  | { readonly refused: string };

/** The whole answer of an enquiry as plain data, so that it can be worked out on another thread. */
export async function workAnswer(work: AnswerWork): Promise<AnswerMade> {
  try {
    const library = createLibrary(work.library);
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
    const shop = parseShop(work.shop);
    const details = answerDetails(answer, { setups: library.setups, shop });
    const cautionsOf = (partId: string) => (id: string) =>
      partCautions(enquiry.parts.find((p) => p.id === partId) ?? enquiry.parts[0], library.setup(id));
    const report = reportAnswer(answer, {
      setups: library.setups,
      dateText: work.dateText,
      documentId: work.documentId,
      approver: null,
      graded: work.graded,
      shop,
      details,
    });
    const { modelVersion } = answer;
    return {
      answer: answerToWire(answer, cautionsOf),
      report,
      details: detailsToWire(details, { enquiry: enquiry.id, modelVersion }, cautionsOf),
      basis: paperBasis(answer),
      modelVersion,
    };
  } catch (error) {
    if (error instanceof InvalidInput) return { refused: error.message };
    throw error;
  }
}
