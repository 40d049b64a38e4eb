import Papa from "papaparse/papaparse.min.js";
import { plainText, safeText, writeCsv } from "#contract";
import type { Cell, Column, Table } from "./table.ts";

const textOf = (cell: Cell): string => (cell === null ? "" : typeof cell === "number" ? String(cell) : safeText(cell));

/** A table as CSV (RFC 4180). A text that a spreadsheet would take for a formula gets an apostrophe in front. */
export function tableToCsv(table: Table): string {
  return writeCsv([table.columns.map((c) => c.name), ...table.rows.map((row) => row.map(textOf))]);
}

function cellOf(text: string, { kind }: Column): Cell {
  if (text === "") return null;
  if (kind === "text") return plainText(text);
  const number = Number(text);
  // A word in a column that is thought to hold numbers stays the word it is.
  return Number.isFinite(number) ? number : text;
}

/** A table back from CSV that this program wrote; `kindOf` says which columns hold numbers. */
export function tableOfCsv(
  csv: string,
  about: { readonly name: string; readonly title: string },
  kindOf: (column: string) => Column["kind"],
): Table {
  const { data } = Papa.parse(csv.replace(/\r\n$/, ""), { delimiter: ",", header: false, skipEmptyLines: false });
  const [header = [], ...rows] = data;
  const columns = header.map((name): Column => ({ name, kind: kindOf(name) }));
  return { ...about, columns, rows: rows.map((row) => columns.map((column, i) => cellOf(row[i] ?? "", column))) };
}
