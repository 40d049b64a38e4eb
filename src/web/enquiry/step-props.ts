import type { Enquiry, PartEnquiry } from "#terms";
import type { TrialRecord } from "../api/trials.ts";
import type { Place } from "../app/route.ts";
import type { EnquiryDoc, PartDoc } from "./doc.ts";
import type { Draft } from "./use-draft.ts";

/** What every step of an enquiry is handed. */
export interface StepProps {
  readonly enquiryId: string;
  readonly place: Place;
  readonly draft: Draft;
  readonly doc: EnquiryDoc;
  readonly part: PartDoc;
  readonly index: number;
  readonly partId: string;
  /** the enquiry in SI, as the worker resolved it; null until it has, or when it cannot */
  readonly enquiry: Enquiry | null;
  readonly partEnquiry: PartEnquiry | null;
  /** why the enquiry cannot be computed, in one line */
  readonly problem: string | null;
  readonly trials: readonly TrialRecord[];
}
