import type { EntryDraft } from "./entry-draft.ts";

interface Storage {
  getItem(key: string): string | null;
  setItem(key: string, text: string): void;
  removeItem(key: string): void;
}
/** That of the browser; types of tests know of none. */
const storage = (): Storage => (globalThis as unknown as { readonly localStorage: Storage }).localStorage;

const keyOf = (key: string): string => `scourlight.library.${key}`;

/** Storage may be full or forbidden; then the copy in the page is all there is. */
export function keepDraft(key: string, version: number, draft: EntryDraft): void {
  try {
    storage().setItem(keyOf(key), JSON.stringify({ version, draft }));
  } catch {
    return;
  }
}

/** What was typed and not saved, with the version of the file that it was made from. */
export interface KeptDraft {
  readonly version: number;
  readonly draft: EntryDraft;
}

/**
 * What was typed before and not saved; null where there is none. It is there too where the file has moved on since:
 * saving it is then a conflict, which a person decides.
 */
export function readDraft(key: string): KeptDraft | null {
  try {
    const kept: unknown = JSON.parse(storage().getItem(keyOf(key)) ?? "null");
    if (typeof kept !== "object" || kept === null || !("draft" in kept) || !("version" in kept)) return null;
    return typeof kept.version === "number" && kept.draft ? (kept as KeptDraft) : null;
  } catch {
    return null;
  }
}

export function dropDraft(key: string): void {
  try {
    storage().removeItem(keyOf(key));
  } catch {
    return;
  }
}
