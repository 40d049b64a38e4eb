import type { BreakEven, CostSpread, DeliveryAdvice, JobRate, Payback, Sensitivity } from "#cost";
import type { MarkedPatch } from "#drawing";
import type { HazardDistances } from "#safety";
import type { Coupon, DriftSpread, EnquiryAnswer, Recommendation } from "#terms";
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

/** The order of one part: how it is brought to the beam, how long it takes and what it costs. */
export interface PartJob {
  readonly advice: DeliveryAdvice;
  readonly rate: JobRate;
  /** h: low and high as far as the stated spread of the times goes */
  readonly hours: { readonly low: number; readonly middle: number; readonly high: number };
  readonly cost: CostSpread;
  readonly sensitivity: Sensitivity;
  readonly breakEven: BreakEven;
  /** null where no area a year was given */
  readonly payback: Payback | null;
  readonly currency: string;
  /** what the figures rest on, one sentence each */
  readonly basis: readonly string[];
}

/** One side of a comparison by evidence: what a trial of one kind of source came to. */
export interface EvidenceSide {
  readonly kind: "pulsed" | "continuous";
  readonly trialId: string;
  readonly setupName: string;
  /** patches graded */
  readonly patches: number;
  readonly recommendation: Recommendation | null;
  /** W at the work; null without a recommendation */
  readonly meanPower: number | null;
  /** null where cost was not worked out */
  readonly cost: {
    readonly low: number;
    readonly middle: number;
    readonly high: number;
    readonly currency: string;
  } | null;
  /** m, longest eye hazard distance; null without a recommendation */
  readonly hazard: number | null;
  readonly eyewear: string | null;
}

/** Best pulsed against best continuous by what was burned. */
export interface EvidenceComparison {
  readonly pulsed: EvidenceSide | null;
  readonly continuous: EvidenceSide | null;
  /** plain sentences of which does better and why, or why nothing is said */
  readonly words: readonly string[];
  readonly equal: readonly string[];
  readonly unequal: readonly string[];
}

/** A hazard zone to be drawn to scale. */
export interface HazardZone {
  readonly title: string;
  readonly hazards: HazardDistances;
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
  /** by part id; rate, delivery and sensitivity in full */
  readonly jobs?: Readonly<Record<string, PartJob>>;
  /** by part id; pulsed against continuous by what was burned */
  readonly evidence?: Readonly<Record<string, EvidenceComparison>>;
  readonly hazardZones?: readonly HazardZone[];
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
  /** "1" when not given */
  readonly revision?: string;
  readonly approver: string | null;
}
