import type { EnquiryDoc } from "../api/enquiries.ts";

interface Kept {
  readonly version: number;
  readonly doc: EnquiryDoc;
}

const keyOf = (enquiryId: string): string => `scourlight.draft.${enquiryId}`;

/** Storage may be full or forbidden; then the copy in the page is all there is. */
export function keepLocal(enquiryId: string, version: number, doc: EnquiryDoc): void {
  try {
    localStorage.setItem(keyOf(enquiryId), JSON.stringify({ version, doc } satisfies Kept));
  } catch {
    return;
  }
}

export function readLocal(enquiryId: string): Kept | null {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(keyOf(enquiryId)) ?? "null");
    if (typeof kept !== "object" || kept === null || !("version" in kept) || !("doc" in kept)) return null;
    return kept as Kept;
  } catch {
    return null;
  }
}

export function dropLocal(enquiryId: string): void {
  try {
    localStorage.removeItem(keyOf(enquiryId));
  } catch {
    return;
  }
}
