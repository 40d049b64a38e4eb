import type { EntryDraft } from "./entry-draft.ts";

const keyOf = (key: string): string => `scourlight.library.${key}`;

/** Storage may be full or forbidden; then the copy in the page is all there is. */
export function keepDraft(key: string, version: number, draft: EntryDraft): void {
  try {
    localStorage.setItem(keyOf(key), JSON.stringify({ version, draft }));
  } catch {
    return;
  }
}

/** What was typed before and not saved, where the file has not moved on since; null where there is none. */
export function readDraft(key: string, version: number): EntryDraft | null {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(keyOf(key)) ?? "null");
    if (typeof kept !== "object" || kept === null || !("draft" in kept) || !("version" in kept)) return null;
    return kept.version === version ? (kept.draft as EntryDraft) : null;
  } catch {
    return null;
  }
}

export function dropDraft(key: string): void {
  try {
    localStorage.removeItem(keyOf(key));
  } catch {
    return;
  }
}
