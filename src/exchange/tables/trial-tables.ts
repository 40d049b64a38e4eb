import { outcomesToCsv, runSheetCsv } from "#contract";
import type { AcceptanceTest, LaserSetup, Outcome, Trial } from "#terms";
import type { Column, Table } from "./table.ts";
import { tableOfCsv } from "./table-csv.ts";

const wordColumns = ["couponLabel", "role", "laser", "lens", "grader", "note"];

const kindOf = (column: string): Column["kind"] =>
  wordColumns.includes(column) || column.startsWith("test:") ? "text" : "number";

/** The run sheet, the same cells as its CSV; empty columns for what is seen. */
export function runSheetTable(
  trial: Trial,
  setup: LaserSetup,
  testColumns: readonly AcceptanceTest["kind"][] = [],
): Table {
  const about = { name: "run-sheet", title: "Run sheet" };
  return tableOfCsv(runSheetCsv(trial, setup, testColumns), about, kindOf);
}

/** Outcomes, the same cells as their CSV; a column for each kind of test that occurs. */
export function outcomesTable(outcomes: readonly Outcome[]): Table {
  return tableOfCsv(outcomesToCsv(outcomes), { name: "outcomes", title: "Outcomes" }, kindOf);
}
