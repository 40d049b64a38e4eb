import {
  type OutcomeWire,
  outcomeFromWire,
  parseEnquiry,
  parseOutcomesCsv,
  type RefusedRow,
  type SurveyWire,
  type TrialWire,
  trialFromWire,
  validatePublished,
  type WindowWire,
} from "#contract";
import {
  cautionsTable,
  comparisonTable,
  outcomesFromXlsx,
  outcomesTable,
  readBytes,
  runSheetTable,
  settingsTable,
  type Table,
  tablesToXlsx,
  tableToCsv,
  windowMapTable,
} from "#exchange";
import type { Library } from "#library";
import type { AcceptanceTest, Outcome } from "#terms";
import { invalid, requireOneOf } from "#units";
import { dataOf, type ExportFlags } from "./export-flags.ts";
import { readJson, readText, writeWhole } from "./files.ts";
import { loadLibrary, loadTrialWire, partOf } from "./load.ts";
import { readKept } from "./known.ts";
import { onFolder } from "./on-folder.ts";
import { askIfThere, askServer, at } from "./server-api.ts";
import { cautionLines } from "./show.ts";

/** Largest workbook that is read, packed. */
const BOOK_MAX = 40_000_000;

interface Given {
  readonly wire: TrialWire;
  readonly outcomes: readonly Outcome[];
  readonly refused: readonly RefusedRow[];
}

/** Outcomes out of a workbook or a CSV, whichever the file is. */
async function outcomesOf(file: string, wire: TrialWire, wanted: readonly AcceptanceTest[]): Promise<Given> {
  const trial = trialFromWire(wire);
  const { accepted, refused } = /\.xlsx$/i.test(file)
    ? await outcomesFromXlsx(await readBytes(file, "outcomes file", BOOK_MAX), trial, wanted)
    : parseOutcomesCsv(await readText(file, "outcomes file"), trial, wanted);
  if (accepted.length === 0 && refused.length > 0)
    invalid(
      "outcomes file",
      `${refused.length} rows`,
      "",
      `none fits; line ${refused[0]!.line}: ${refused[0]!.message}`,
    );
  return { wire, outcomes: accepted, refused };
}

async function trialOf(flags: ExportFlags): Promise<Given> {
  if (flags.trial !== undefined) return { wire: await loadTrialWire(flags.trial), outcomes: [], refused: [] };
  const id = flags.trialId!;
  const missing = () => invalid("trial", id, "", "is not in the data folder");
  const folder = dataOf(flags);
  return onFolder<Given>(folder, {
    here: () =>
      readKept(folder, "data", async (reader) => {
        const saved = (await reader.latest("trial", id)) ?? missing();
        return { wire: saved.record, outcomes: (await reader.outcomes(id)).map(outcomeFromWire), refused: [] };
      }),
    async server(door) {
      const path = `/trials/${at(id)}`;
      const { trial } = (await askIfThere<{ trial: TrialWire }>(door, path)) ?? missing();
      const { outcomes } = await askServer<{ outcomes: OutcomeWire[] }>(door, "GET", `${path}/outcomes`);
      return { wire: trial, outcomes: outcomes.map(outcomeFromWire), refused: [] };
    },
  });
}

async function testsOf(flags: ExportFlags, wire: TrialWire, library: Library): Promise<readonly AcceptanceTest[]> {
  if (flags.enquiry === undefined) return [];
  const enquiry = parseEnquiry(await readJson(flags.enquiry, "enquiry"), library);
  if (enquiry.id !== wire.enquiry) invalid("enquiry", enquiry.id, "", `the trial belongs to enquiry ${wire.enquiry}`);
  return partOf(enquiry, trialFromWire(wire)).acceptance.tests;
}

/** What `window --json` printed of this trial. */
async function windowOf(flags: ExportFlags, wire: TrialWire): Promise<WindowWire | null> {
  if (flags.window === undefined) return null;
  const window = validatePublished("window", await readJson(flags.window, "window"), "window");
  if (window.trial !== wire.id) invalid("window", window.trial, "", `must be of trial ${wire.id}`);
  return window;
}

/** The survey in what `compare --json` printed of this part; it prints more beside it. */
async function surveyOf(flags: ExportFlags, wire: TrialWire): Promise<SurveyWire | null> {
  if (flags.comparison === undefined) return null;
  const printed = ((await readJson(flags.comparison, "comparison")) ?? {}) as Record<string, unknown>;
  const { part, verdicts, cautions, modelVersion } = printed;
  const survey = validatePublished("survey", { part, verdicts, cautions, modelVersion }, "comparison");
  if (survey.part !== wire.part) invalid("comparison", survey.part, "", `must be of part ${wire.part}`);
  return survey;
}

/** The tables of a trial, as a workbook or as one CSV. */
export async function exportTables(flags: ExportFlags): Promise<string> {
  const library = await loadLibrary(flags.library);
  const kept = await trialOf(flags);
  const tests = await testsOf(flags, kept.wire, library);
  const given = flags.outcomes === undefined ? kept : await outcomesOf(flags.outcomes, kept.wire, tests);
  const [window, survey] = [await windowOf(flags, given.wire), await surveyOf(flags, given.wire)];
  const trial = trialFromWire(given.wire);
  const cautions = [...given.wire.cautions, ...(window?.cautions ?? []), ...(survey?.cautions ?? [])];
  const tables: Table[] = [
    runSheetTable(
      trial,
      library.setup(trial.setupId),
      tests.map((t) => t.kind),
    ),
    ...(given.outcomes.length === 0 ? [] : [outcomesTable(given.outcomes)]),
    settingsTable(given.wire, window),
    ...(survey === null ? [] : [comparisonTable(survey)]),
    ...(window === null ? [] : [windowMapTable(window) ?? []]).flat(),
    cautionsTable(cautions),
  ];
  const written = await writeTables(flags, tables);
  return [
    `wrote ${flags.out}: ${written.map((t) => `${t.title.toLowerCase()} (${t.rows.length} rows)`).join(", ")}`,
    ...(given.refused.length > 0 ? [`${given.refused.length} rows refused`] : []),
    ...given.refused.map((r) => `  line ${r.line}: ${r.message}`),
    "",
    ...cautionLines(cautionsTable(cautions).rows.map(([line]) => String(line))),
  ].join("\n");
}

/** A workbook takes all tables, a CSV one: the one that is named, or the outcomes, or the run sheet. */
async function writeTables(flags: ExportFlags, tables: readonly Table[]): Promise<readonly Table[]> {
  if (/\.xlsx$/i.test(flags.out)) {
    if (flags.table !== undefined) invalid("table", flags.table, "", "a workbook holds every table");
    await writeWhole(flags.out, await tablesToXlsx(tables));
    return tables;
  }
  const names = tables.map((t) => t.name);
  const name = requireOneOf("table", flags.table ?? (names.includes("outcomes") ? "outcomes" : "run-sheet"), names);
  const table = tables.find((t) => t.name === name)!;
  await writeWhole(flags.out, tableToCsv(table));
  return [table];
}
