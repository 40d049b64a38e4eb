import { type PublishedSchema, validatePublished } from "#contract";
import { answerId, answerRow } from "./answer-id.ts";
import { createListReader } from "./list-reader.ts";
import { createLogbook } from "./logbook.ts";
import type { Db } from "./open-database.ts";
import type { SavedAnswer, SavedOutcome, StoreReader } from "./store.ts";
import { type RecordRow, recordColumns, saved } from "./saved-record.ts";
import { storedJson } from "./stored-shapes.ts";

interface OutcomeRow {
  readonly row: number;
  readonly saved_at: string;
  readonly payload: string;
}
interface AnswerRow {
  readonly row: number;
  readonly enquiry: string;
  readonly enquiry_version: number;
  readonly shape: PublishedSchema;
  readonly model_version: string;
  readonly saved_at: string;
  readonly inputs: string;
  readonly result: string;
}

function savedOutcome({ row, saved_at, payload }: OutcomeRow): SavedOutcome {
  const outcome = validatePublished("outcome", storedJson(payload, `stored outcome ${row}`), "stored outcome");
  return { row, savedAt: saved_at, outcome };
}

const answerLine = (row: Omit<AnswerRow, "inputs" | "result">) => ({
  id: answerId(row.row),
  savedAt: row.saved_at,
  enquiry: row.enquiry,
  enquiryVersion: row.enquiry_version,
  shape: row.shape,
  modelVersion: row.model_version,
});

function savedAnswer(row: AnswerRow): SavedAnswer {
  const what = `stored ${answerId(row.row)}`;
  return {
    ...answerLine(row),
    inputs: storedJson(row.inputs, what) as Record<string, unknown>,
    result: validatePublished(row.shape, storedJson(row.result, what), what),
  };
}

/** Questions to the database, checked by the shapes on the way out. */
export function createReader(db: Db): StoreReader {
  const all = <T>(sql: string, ...values: unknown[]): T[] => db.prepare(sql).all(...values) as T[];
  const one = <T>(sql: string, ...values: unknown[]): T | undefined => all<T>(sql, ...values)[0];
  return {
    ...createListReader(db),
    ...createLogbook(db),
    async latest(kind, id) {
      const row = one<RecordRow>(
        `SELECT ${recordColumns} FROM records WHERE kind = ? AND id = ? ORDER BY version DESC LIMIT 1`,
        kind,
        id,
      );
      return row === undefined ? null : saved(kind, row);
    },
    async version(kind, id, version) {
      const sql = `SELECT ${recordColumns} FROM records WHERE kind = ? AND id = ? AND version = ?`;
      const row = one<RecordRow>(sql, kind, id, version);
      return row === undefined ? null : saved(kind, row);
    },
    async list(kind, enquiry) {
      const narrowed = enquiry === undefined ? "" : "AND enquiry = ?";
      const sql = `SELECT ${recordColumns} FROM latest_records WHERE kind = ? ${narrowed} ORDER BY row DESC`;
      const values = enquiry === undefined ? [kind] : [kind, enquiry];
      return all<RecordRow>(sql, ...values).map((row) => saved(kind, row));
    },
    async history(kind, id) {
      const sql = "SELECT version, saved_at FROM records WHERE kind = ? AND id = ? ORDER BY version DESC";
      return all<RecordRow>(sql, kind, id).map((row) => ({ version: row.version, savedAt: row.saved_at }));
    },
    async outcomes(trial) {
      const sql = "SELECT row, saved_at, payload FROM latest_outcomes WHERE trial = ? ORDER BY patch, row";
      return all<OutcomeRow>(sql, trial).map((row) => savedOutcome(row).outcome);
    },
    async outcomeHistory(trial, patch) {
      const narrowed = patch === undefined ? "" : "AND patch = ?";
      const sql = `SELECT row, saved_at, payload FROM outcomes WHERE trial = ? ${narrowed} ORDER BY row`;
      const values = patch === undefined ? [trial] : [trial, patch];
      return all<OutcomeRow>(sql, ...values).map(savedOutcome);
    },
    async answers(enquiry) {
      const columns = "row, enquiry, enquiry_version, shape, model_version, saved_at";
      return all<AnswerRow>(`SELECT ${columns} FROM answers WHERE enquiry = ? ORDER BY row DESC`, enquiry).map(
        answerLine,
      );
    },
    async answer(id) {
      const number = answerRow(id);
      const row = number === null ? undefined : one<AnswerRow>("SELECT * FROM answers WHERE row = ?", number);
      return row === undefined ? null : savedAnswer(row);
    },
    async photos() {
      const sql = "SELECT sha256, media_type, bytes, saved_at FROM photos ORDER BY saved_at, sha256";
      return all<{ sha256: string; media_type: string; bytes: number; saved_at: string }>(sql).map((row) => ({
        sha256: row.sha256,
        mediaType: row.media_type,
        bytes: row.bytes,
        savedAt: row.saved_at,
      }));
    },
  };
}
