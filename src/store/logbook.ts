import type { Db } from "./open-database.ts";
import type { LogLine, StoreReader } from "./store.ts";

/** Everything saved under an enquiry, whatever it is: rows are only added, so this is all that ever happened to it. Outcomes of a grader within one minute are one line. */
const sql = `
  SELECT saved_at AS savedAt, kind AS what, id, version, NULL AS count, NULL AS grader FROM records
    WHERE (kind = 'enquiry' AND id = ?1) OR enquiry = ?1
  UNION ALL
  SELECT max(saved_at), 'outcomes', trial, NULL, count(*), grader FROM outcomes
    WHERE trial IN (SELECT id FROM latest_records WHERE kind = 'trial' AND enquiry = ?1)
    GROUP BY trial, grader, substr(saved_at, 1, 16)
  UNION ALL
  SELECT saved_at, 'answer', 'answer-' || row, NULL, NULL, NULL FROM answers WHERE enquiry = ?1
  ORDER BY savedAt DESC, what, id, version DESC
  LIMIT ?2`;

/** Reader of the logbook; `most` lines, newest first. */
export const createLogbook = (db: Db): Pick<StoreReader, "logbook"> => ({
  logbook: async (enquiry, most) =>
    (db.prepare(sql).all(enquiry, most) as LogLine[]).map(({ savedAt, what, id, version, count, grader }) => ({
      savedAt,
      what,
      id,
      version,
      count,
      grader,
    })),
});
