import { validatePublished } from "#contract";
import { InvalidInput, invalid } from "#units";
import type { Db } from "./open-database.ts";
import { createReader } from "./reader.ts";
import type { StoreTransaction } from "./store.ts";
import { checkRecord, enquiryOf } from "./stored-shapes.ts";
import { VersionConflict } from "./version-conflict.ts";

/** Reader and writer of one transaction that is open already. `now` gives the time as ISO 8601. */
export function createTransaction(db: Db, now: () => string): StoreTransaction {
  const reader = createReader(db);
  return {
    ...reader,
    async put(kind, record, expected) {
      const checked = checkRecord(kind, record);
      const { id } = checked;
      const row = db.prepare("SELECT max(version) AS version FROM records WHERE kind = ? AND id = ?").get(kind, id);
      const current = (row as { version: number | null }).version ?? 0;
      if (expected !== undefined && expected !== current) throw new VersionConflict(kind, id, expected, current);
      const savedAt = now();
      db.prepare("INSERT INTO records (kind, id, version, enquiry, saved_at, payload) VALUES (?, ?, ?, ?, ?, ?)").run(
        kind,
        id,
        current + 1,
        enquiryOf(kind, checked),
        savedAt,
        JSON.stringify(checked),
      );
      return { id, version: current + 1, savedAt, record: checked };
    },
    async addOutcomes(trial, outcomes) {
      const known = await reader.latest("trial", trial);
      if (known === null) throw new InvalidInput("trial", trial, "", "is not in the store");
      const patches = new Set(known.record.patches.map((p) => p.patch));
      const insert = db.prepare(
        "INSERT INTO outcomes (trial, patch, grader, saved_at, payload) VALUES (?, ?, ?, ?, ?)",
      );
      for (const given of outcomes) {
        const outcome = validatePublished("outcome", given, "outcome");
        if (outcome.trial !== trial) invalid("outcome.trial", outcome.trial, "", `must be ${trial}`);
        if (!patches.has(outcome.patch)) invalid("outcome.patch", outcome.patch, "", `is not in trial ${trial}`);
        insert.run(trial, outcome.patch, outcome.grader, now(), JSON.stringify(outcome));
      }
      return outcomes.length;
    },
    async addAnswer(answer) {
      const result = validatePublished(answer.shape, answer.result, answer.shape);
      const savedAt = now();
      const { lastInsertRowid } = db
        .prepare(
          `INSERT INTO answers (enquiry, enquiry_version, shape, model_version, saved_at, inputs, result)
           VALUES (?, ?, ?, ?, ?, ?, ?)`,
        )
        .run(
          answer.enquiry,
          answer.enquiryVersion,
          answer.shape,
          answer.modelVersion,
          savedAt,
          JSON.stringify(answer.inputs),
          JSON.stringify(result),
        );
      return { ...answer, result, id: `answer-${lastInsertRowid}`, savedAt };
    },
    async notePhoto({ sha256, mediaType, bytes }) {
      db.prepare(
        "INSERT INTO photos (sha256, media_type, bytes, saved_at) VALUES (?, ?, ?, ?) ON CONFLICT DO NOTHING",
      ).run(sha256, mediaType, bytes, now());
    },
  };
}
