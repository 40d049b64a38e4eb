/// <reference path="./papaparse.d.ts" />
import Papa from "papaparse/papaparse.min.js";
import { invalid } from "#units";
import { requireTextSize } from "./json-text.ts";

interface CsvRow {
  /** line of the file on which the row begins, from 1 */
  readonly line: number;
  readonly cells: readonly string[];
}

export interface CsvTable {
  readonly header: readonly string[];
  readonly headerLine: number;
  readonly rows: readonly CsvRow[];
  /** what separates the cells; with any but a comma, decimal commas are unmistakable */
  readonly delimiter: "," | ";" | "\t";
  /** a quotation that never closes swallows the rest of a file: the line it begins on, or null */
  readonly openQuote: number | null;
}

function delimiterOf(headerLine: string): CsvTable["delimiter"] {
  const count = (mark: string) => headerLine.split(mark).length;
  if (count(";") > count(",") && count(";") >= count("\t")) return ";";
  return count("\t") > count(",") ? "\t" : ",";
}

const linesIn = (cell: string): number => cell.match(/\r\n|\r|\n/g)?.length ?? 0;

/**
 * Reads a table with a header line: byte order mark, CRLF, quotation marks, comma, semicolon or tab. Empty lines are
 * passed over and counted. Throws InvalidInput for a text without a header and for one over 20 MB.
 */
export function readCsvTable(text: string, name: string): CsvTable {
  requireTextSize(text, name);
  const body = text.replace(/^\uFEFF/, "");
  if (body.trim() === "") invalid(name, "empty", "", "must have a header line and rows");
  const first = body.split(/\r\n|\r|\n/).find((line) => line.trim() !== "") ?? "";
  const delimiter = delimiterOf(first);
  const parsed = Papa.parse(body, { delimiter, header: false, skipEmptyLines: false });
  const rows: CsvRow[] = [];
  let line = 1;
  let lastLine = 1;
  for (const cells of parsed.data) {
    if (cells.some((cell) => cell.trim() !== "")) rows.push({ line, cells });
    lastLine = line;
    line += 1 + cells.reduce((sum, cell) => sum + linesIn(cell), 0);
  }
  // A text of nothing but quotation marks has no cell with anything in it either.
  const header = rows.shift() ?? invalid(name, "empty", "", "must have a header line and rows");
  const openQuote = parsed.errors.some((e) => e.code === "MissingQuotes") ? lastLine : null;
  return { header: header.cells.map((c) => c.trim()), headerLine: header.line, rows, delimiter, openQuote };
}

/** A leading sign lets a spreadsheet take a text for a formula and run it. */
const formula = /^'*[=+\-@\t\r]/;

/** A free text as a cell that no spreadsheet runs. `plainText` undoes it. */
export function safeText(text: string): string {
  return formula.test(text) ? `'${text}` : text;
}

/** A cell back to the text that `safeText` was given. */
export function plainText(cell: string): string {
  return cell.startsWith("'") && formula.test(cell) ? cell.slice(1) : cell;
}

/** Rows of finished cells as CSV text with CRLF ends (RFC 4180). */
export function writeCsv(rows: readonly (readonly string[])[]): string {
  return `${Papa.unparse(rows, { newline: "\r\n" })}\r\n`;
}
