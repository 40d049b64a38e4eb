import { type SettingWire, settingSchema, validate } from "#contract";
import { toSI } from "#units";
import { answerRow } from "./answer-id.ts";
import type { Db } from "./open-database.ts";
import type { EnquiryLine, KeptWindow, LastRows, RecordHead, StoreReader, TrialLine } from "./store.ts";
import { type RecordRow, recordColumns, saved } from "./saved-record.ts";
import { storedJson } from "./stored-shapes.ts";

/** Questions that lists ask: the database counts and cuts out, so that 50,000 outcomes need not be read to show a page. */
export type ListReader = Pick<
  StoreReader,
  "heads" | "trialLines" | "enquiryLines" | "gradedPatches" | "windowsIn" | "lastChange" | "lastRows"
>;

const field = (name: string): string => `json_extract(payload, '$.${name}')`;

const headSql = "SELECT id, version, saved_at AS savedAt FROM latest_records WHERE kind = ? ORDER BY row DESC";

const trialSql = `
  SELECT id, ${field("enquiry")} AS enquiry, ${field("part")} AS part, ${field("laser")} AS laser,
    json_array_length(payload, '$.patches') AS patches, saved_at AS savedAt
  FROM latest_records WHERE kind = 'trial' ORDER BY row DESC`;

const enquirySql = `SELECT ${recordColumns} FROM latest_records WHERE kind = 'enquiry' ORDER BY row DESC`;

const countSql = {
  trials: `
    SELECT enquiry, count(*) AS n, json_group_array(DISTINCT ${field("laser")}) AS lasers
    FROM latest_records WHERE kind = 'trial' GROUP BY enquiry`,
  outcomes: `
    SELECT t.enquiry, sum(c.n) AS n FROM latest_records t
    JOIN (SELECT trial, count(*) AS n FROM (SELECT DISTINCT trial, patch, grader FROM outcomes) GROUP BY trial) c
      ON c.trial = t.id
    WHERE t.kind = 'trial' GROUP BY t.enquiry`,
  answers: "SELECT enquiry, count(*) AS n FROM answers GROUP BY enquiry",
} as const;

const patchSql = `
  SELECT patch, max(${field("residue_percent")}) AS residue, max(${field("metalCondition")}) AS condition
  FROM latest_outcomes WHERE trial = ? GROUP BY patch HAVING residue IS NOT NULL OR condition IS NOT NULL
  ORDER BY patch`;

const windowColumns = (window: string): string => `
  json_extract(${window}, '$.trial') AS trial,
  json_extract(${window}, '$.recommended.setting') AS setting,
  json_extract(${window}, '$.recommended.proven') AS proven`;

const windowSql = `
  SELECT ${windowColumns("result")} FROM answers WHERE row = ?1 AND shape = 'window'
  UNION ALL
  SELECT ${windowColumns("json_extract(t.value, '$.window')")}
  FROM answers a, json_each(a.result, '$.parts') p, json_each(p.value, '$.trials') t
  WHERE a.row = ?1 AND a.shape = 'answer' AND json_type(t.value, '$.window') = 'object'`;

const changeSql = `
  SELECT max(saved_at) AS savedAt FROM (
    SELECT saved_at FROM latest_records WHERE kind = 'enquiry' AND id = ?1
    UNION ALL SELECT saved_at FROM latest_records WHERE kind IN ('trial', 'grading') AND enquiry = ?1
    UNION ALL SELECT max(saved_at) FROM outcomes
      WHERE trial IN (SELECT id FROM latest_records WHERE kind = 'trial' AND enquiry = ?1))`;

const lastSql = `
  SELECT (SELECT max(row) FROM records) AS records,
    (SELECT max(row) FROM records WHERE kind = 'library') AS library,
    (SELECT max(row) FROM outcomes) AS outcomes, (SELECT max(row) FROM answers) AS answers`;

interface CountRow {
  readonly enquiry: string;
  readonly n: number;
  readonly lasers?: string;
}

export function createListReader(db: Db): ListReader {
  const all = <T>(sql: string, ...values: unknown[]): T[] => db.prepare(sql).all(...values) as T[];
  const counts = (sql: string) => new Map(all<CountRow>(sql).map((row) => [row.enquiry, row]));
  return {
    heads: async (kind) => all<RecordHead>(headSql, kind).map(({ id, version, savedAt }) => ({ id, version, savedAt })),
    trialLines: async () =>
      all<TrialLine>(trialSql).map(({ id, enquiry, part, laser, patches, savedAt }) => ({
        id,
        enquiry,
        part,
        laser,
        patches,
        savedAt,
      })),
    async enquiryLines() {
      const trials = counts(countSql.trials);
      const outcomes = counts(countSql.outcomes);
      const answers = counts(countSql.answers);
      return all<RecordRow>(enquirySql).map((row): EnquiryLine => {
        const of = trials.get(row.id);
        return {
          ...saved("enquiry", row),
          trials: of?.n ?? 0,
          outcomes: outcomes.get(row.id)?.n ?? 0,
          answers: answers.get(row.id)?.n ?? 0,
          lasers: storedJson(of?.lasers ?? "[]", `stored trials of ${row.id}`) as string[],
        };
      });
    },
    gradedPatches: async (trial) =>
      all<{ patch: number; residue: number | null; condition: number | null }>(patchSql, trial).map((row) => ({
        patch: row.patch,
        residueFraction: row.residue === null ? null : toSI(row.residue, "%"),
        metalCondition: row.condition,
      })),
    async windowsIn(answer) {
      const number = answerRow(answer);
      const rows = number === null ? [] : all<{ trial: string; setting: string; proven: number }>(windowSql, number);
      return rows.map(
        ({ trial, setting, proven }): KeptWindow => ({
          trial,
          recommended: setting === null ? null : { setting: keptSetting(setting, answer), proven: proven === 1 },
        }),
      );
    },
    lastChange: async (enquiry) => all<{ savedAt: string | null }>(changeSql, enquiry)[0]?.savedAt ?? null,
    async lastRows() {
      const row = all<{ [K in keyof LastRows]: number | null }>(lastSql)[0];
      const { records = 0, library = 0, outcomes = 0, answers = 0 } = row ?? {};
      return { records: records ?? 0, library: library ?? 0, outcomes: outcomes ?? 0, answers: answers ?? 0 };
    },
  };
}

/** What leads a person to a machine is checked on its way out, whatever it was cut from. */
function keptSetting(text: string, answer: string): SettingWire {
  return validate(settingSchema, storedJson(text, `stored ${answer}`), `stored ${answer}`);
}
