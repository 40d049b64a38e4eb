import type { EnquiryDoc, PartDoc } from "../enquiry/doc.ts";

/** A comparison of set-ups holds for as long as the part and the site stay the same. */
export function surveyKey(enquiryId: string, part: PartDoc, doc: EnquiryDoc): string {
  return JSON.stringify([enquiryId, part, doc.site ?? null]);
}
