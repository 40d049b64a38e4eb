import type { AcceptanceTest, Outcome, Trial } from "#terms";
import { InvalidInput, invalid } from "#units";
import { headerProblems } from "./csv-columns.ts";
import { cellsByColumn, outcomeOfRow } from "./csv-outcome-row.ts";
import { readCsvTable } from "./csv-text.ts";

export interface RefusedRow {
  /** line of the file, from 1 */
  readonly line: number;
  readonly message: string;
}

export interface RecordedOutcomes {
  readonly accepted: Outcome[];
  readonly refused: RefusedRow[];
}

/**
 * Outcomes of a trial from CSV. A row that does not fit is refused with its line number and the rest is kept; an
 * unknown column is named at the header's line and not read. `wanted` are the acceptance tests of the enquiry, whose
 * method and limit a `test:<kind>` column takes over. Throws InvalidInput only where nothing can be read at all: an
 * empty file, no `patch` column, no rows, more than 20 MB.
 */
export function parseOutcomesCsv(text: string, trial: Trial, wanted: readonly AcceptanceTest[] = []): RecordedOutcomes {
  const table = readCsvTable(text, "outcomes file");
  if (!table.header.includes("patch")) {
    invalid("outcomes file", table.header.join(" "), "", "the header line needs the column patch");
  }
  if (table.rows.length === 0) invalid("outcomes file", "header only", "", "must have at least one row");
  const accepted: Outcome[] = [];
  const refused: RefusedRow[] = headerProblems(table.header).map((message) => ({ line: table.headerLine, message }));
  const firstLine = new Map<string, number>();
  const last = table.rows.at(-1)!.line;
  for (const { line, cells } of table.rows) {
    try {
      if (table.openQuote !== null && line === last) {
        invalid("row", "unfinished", "", "a quotation mark opens and never closes");
      }
      if (cells.length > table.header.length) {
        const comma = table.delimiter === "," ? "; a decimal comma needs a file separated by semicolons" : "";
        invalid("row", `${cells.length} cells`, "", `the header has ${table.header.length}${comma}`);
      }
      const row = cellsByColumn(table.header, cells);
      const outcome = outcomeOfRow(row, trial, wanted, table.delimiter !== ",");
      const key = `${outcome.patch} ${outcome.grader}`;
      const earlier = firstLine.get(key);
      if (earlier !== undefined) {
        invalid("patch", outcome.patch, "", `already on line ${earlier} from the same grader`);
      }
      firstLine.set(key, line);
      accepted.push(outcome);
    } catch (error) {
      if (!(error instanceof InvalidInput)) throw error;
      refused.push({ line, message: error.message });
    }
  }
  return { accepted, refused };
}
