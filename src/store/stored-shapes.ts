import { validatePublished } from "#contract";
import { parseLibraryFile } from "#library";
import { InvalidInput, invalid } from "#units";
import type { LibraryRecord, RecordKind, RecordShapes } from "./store.ts";

function checkLibrary(value: unknown): LibraryRecord {
  const { id, file } = (value ?? {}) as { id?: unknown; file?: unknown };
  if (typeof id !== "string" || !/^[A-Za-z0-9][A-Za-z0-9._-]{0,79}$/.test(id)) {
    invalid("library file id", id, "", "must be 1 to 80 letters, digits, dots, dashes or underscores");
  }
  return { id, file: parseLibraryFile(file) };
}

/** The boundary: nothing goes in and nothing comes out that does not have its shape. */
export function checkRecord<K extends RecordKind>(kind: K, value: unknown): RecordShapes[K] {
  const checked = kind === "library" ? checkLibrary(value) : validatePublished(kind, value, kind);
  return checked as RecordShapes[K];
}

/** Enquiry that a record belongs to, for the index. */
export function enquiryOf(kind: RecordKind, record: RecordShapes[RecordKind]): string | null {
  return kind === "enquiry" || kind === "library" ? null : (record as { enquiry: string }).enquiry;
}

/** Stored text back to a value; damage is named with the record it sits in. */
export function storedJson(text: string, what: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new InvalidInput(what, "damaged", "", "the stored text is not JSON any more");
  }
}
