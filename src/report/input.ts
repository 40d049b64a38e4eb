import type { MarkedPatch } from "#drawing";
import type { Coupon, DriftSpread, EnquiryAnswer } from "#terms";
import type { Fact } from "./model.ts";

/** Cost of one part's job, as the caller worked it out. */
export interface PartCost {
  /** currency per m², 5 %, middle and 95 % */
  readonly low: number;
  readonly median: number;
  readonly high: number;
  readonly currency: string;
  /** hours for the order, or null when not worked out */
  readonly hours: number | null;
  /** what the figure rests on, in words */
  readonly basis: readonly string[];
}

/** A coupon graded from photographs, as a report shows it. */
export interface GradedFigure {
  readonly trialId: string;
  readonly coupon: Coupon;
  readonly patches: readonly MarkedPatch[];
  /** photograph laid flat, as a data address; null where there is none */
  readonly photo: string | null;
  /** photographs that were read, of how many */
  readonly read: number;
  readonly photographs: number;
  /** readings that a person looked at, and how many of them were overruled */
  readonly looked: number;
  readonly overruled: number;
}

/** Everything a report is made of. Date and document id are handed in: nothing here knows the time. */
export interface ReportInput {
  readonly answer: EnquiryAnswer;
  /** by part id; a part without an entry says "not worked out" */
  readonly costs?: Readonly<Record<string, PartCost>>;
  /** at least one: cautions that hold for the whole job */
  readonly cautions: readonly string[];
  /** further cautions by part id */
  readonly partCautions?: Readonly<Record<string, readonly string[]>>;
  /** hazard distances, eyewear, fume: each with its source in the note */
  readonly hazard?: readonly Fact[];
  /** coupons graded from photographs, in the order in which they are shown */
  readonly graded?: readonly GradedFigure[];
  /** citations of sources that the bibliography does not hold, by id */
  readonly citations?: Readonly<Record<string, string>>;
  /** what the chances of the trials are averaged over, where it is not the usual drift */
  readonly drift?: DriftSpread;
  readonly dateText: string;
  readonly documentId: string;
  readonly approver: string | null;
}
