import type { RecordKind, RecordShapes, Saved } from "./store.ts";
import { checkRecord, storedJson } from "./stored-shapes.ts";

export interface RecordRow {
  readonly id: string;
  readonly version: number;
  readonly saved_at: string;
  readonly payload: string;
}

/** What `saved` needs of a row. */
export const recordColumns = "id, version, saved_at, payload";

/** A row as a record, checked by its shape on the way out. */
export function saved<K extends RecordKind>(kind: K, row: RecordRow): Saved<RecordShapes[K]> {
  const record = checkRecord(kind, storedJson(row.payload, `stored ${kind} ${row.id}`));
  return { id: row.id, version: row.version, savedAt: row.saved_at, record };
}
