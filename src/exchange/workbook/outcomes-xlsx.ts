import { outcomeColumns, parseOutcomesCsv, type RecordedOutcomes, safeText } from "#contract";
import type { AcceptanceTest, Outcome, Trial } from "#terms";
import { invalid } from "#units";
import { readWorkbook, type Sheet } from "./read-workbook.ts";

const what = "outcomes file";

const trimmed = (row: readonly string[]): string[] => {
  const end = row.findLastIndex((cell) => cell.trim() !== "");
  return row.slice(0, end + 1);
};

const headerOf = (sheet: Sheet): string[] =>
  (sheet.rows.find((row) => row.some((cell) => cell.trim() !== "")) ?? []).map((cell) => cell.trim());

const isObserved = (column: string): boolean =>
  (outcomeColumns.includes(column) && column !== "patch") || column.startsWith("test:");

/** True for a sheet on which somebody has written what was seen. */
function holdsOutcomes(sheet: Sheet): boolean {
  const header = headerOf(sheet);
  const at = header.flatMap((column, i) => (isObserved(column) ? [i] : []));
  const first = sheet.rows.findIndex((row) => row.some((cell) => cell.trim() !== ""));
  return sheet.rows.slice(first + 1).some((row) => at.some((i) => (row[i] ?? "").trim() !== ""));
}

/** The one sheet to read. Two that are filled in would leave open which counts. */
function outcomesSheet(sheets: readonly Sheet[]): Sheet {
  const candidates = sheets.filter((s) => {
    const header = headerOf(s);
    return header.includes("patch") && header.some(isObserved);
  });
  const filled = candidates.filter(holdsOutcomes);
  if (filled.length > 1)
    invalid(what, filled.map((s) => s.name).join(", "), "", "outcomes stand on more than one sheet; keep them on one");
  return (
    filled[0] ??
    candidates[0] ??
    invalid(what, sheets.map((s) => s.name).join(", ") || "no sheets", "", "no sheet has the column patch and outcomes")
  );
}

/** Stands for a line break inside a cell, so that the n-th line of the text is the n-th row of the sheet. */
const BREAK = "\u2028";

const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;

/** Separated by tabs: a number typed as text with a decimal comma can then be told from two cells. */
function csvOf(sheet: Sheet): string {
  const header = headerOf(sheet);
  const free = header.map((column) => column === "grader" || column === "note" || column.startsWith("test:"));
  const begins = sheet.rows.findIndex((row) => row.some((cell) => cell.trim() !== ""));
  const lines = sheet.rows.map((row, y) => {
    const cells = trimmed(row).map((cell, x) => {
      const flat = cell.replace(/\r\n|\r|\n/g, BREAK).trim();
      // The columns' names have no marks in them that could be taken for the separator.
      if (y === begins) return flat.replace(/[,;\t\u2028]/g, " ");
      return free[x] ? safeText(flat) : flat;
    });
    // A single column shows no separator to be told by.
    if (y === begins && cells.length === 1) cells.push("");
    return cells.map(quoted).join("\t");
  });
  return lines.join("\n");
}

const withBreaks = (outcome: Outcome): Outcome => ({
  ...outcome,
  grader: outcome.grader.replaceAll(BREAK, "\n"),
  note: outcome.note.replaceAll(BREAK, "\n"),
  tests: outcome.tests.map((t) => ({ ...t, value: t.value?.replaceAll(BREAK, "\n") ?? null })),
});

/**
 * Outcomes of a trial from a workbook, by the reader of the CSV: the same columns, the same refusals, `line` is the row
 * of the sheet. A cell shown as 5 % is 5 %; the error of a formula and a date are refused. Throws InvalidInput for what
 * is no workbook, and where outcomes stand on no sheet or on several.
 */
export async function outcomesFromXlsx(
  bytes: Uint8Array,
  trial: Trial,
  wanted: readonly AcceptanceTest[] = [],
): Promise<RecordedOutcomes> {
  const sheet = outcomesSheet(await readWorkbook(bytes, what));
  const { accepted, refused } = parseOutcomesCsv(csvOf(sheet), trial, wanted);
  return { accepted: accepted.map(withBreaks), refused };
}
