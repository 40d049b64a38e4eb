import { type EnquiryFile, resolveEnquiry } from "#contract";
import type { Library } from "#library";
import type { AcceptanceTest } from "#terms";
import { InvalidInput } from "#units";

/** Acceptance tests of a part, whose method and limit a column of the CSV takes over; none while it is a draft. */
export function wantedTests(
  file: EnquiryFile | undefined,
  partId: string,
  library: Library,
): readonly AcceptanceTest[] {
  if (file === undefined) return [];
  try {
    const enquiry = resolveEnquiry(file, library);
    return enquiry.parts.find((p) => p.id === partId)?.acceptance.tests ?? [];
  } catch (error) {
    if (error instanceof InvalidInput) return [];
    throw error;
  }
}
