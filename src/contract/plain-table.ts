import { fromSI, invalid, parseNumber, parseUnit, sameDimension, toSI } from "#units";
import { cellsByColumn, pointed } from "./csv-outcome-row.ts";
import { plainText, readCsvTable } from "./csv-text.ts";

/** One row of a table of measurements; every refusal names its line. */
export interface PlainRow {
  readonly line: number;
  /** text of a cell, "" where it is empty or the column is missing */
  text(column: string): string;
  /** number of a cell in its own unit, or null where it is empty */
  number(column: string): number | null;
}

export interface PlainTable {
  readonly rows: readonly PlainRow[];
  readonly header: readonly string[];
}

/**
 * A table of measurements from CSV, taken whole or refused: a header line, no column twice, none but those that
 * `known` accepts and the free columns `note` and `site`.
 */
export function readPlainTable(text: string, name: string, known: (column: string) => boolean): PlainTable {
  const table = readCsvTable(text, name);
  if (table.rows.length === 0) invalid(name, "header only", "", "must have at least one row");
  if (table.openQuote !== null) invalid(name, `line ${table.openQuote}`, "", "a quotation mark opens and never closes");
  const seen = new Set<string>();
  for (const column of table.header) {
    if (column === "") continue;
    if (seen.has(column)) invalid("column", column, "", "named twice");
    seen.add(column);
    if (column !== "note" && column !== "site" && !known(column)) invalid("column", column, "", "unknown");
  }
  const rows = table.rows.map(({ line, cells }): PlainRow => {
    if (cells.length > table.header.length && cells.slice(table.header.length).some((cell) => cell.trim() !== ""))
      invalid(`row on line ${line}`, `${cells.length} cells`, "", `the header has ${table.header.length}`);
    const byColumn = cellsByColumn(table.header, cells);
    const cell = (column: string): string => byColumn.get(column) ?? "";
    return {
      line,
      text: (column) => {
        // Names come back in words of one line.
        const plain = plainText(cell(column).replace(/[\p{Cc}\p{Zl}\p{Zp}\s]+/gu, " "));
        if (plain.length > 80) invalid(`${column} on line ${line}`, plain, "", "at most 80 characters");
        return plain;
      },
      number: (column) => {
        const name = `${column} on line ${line}`;
        return cell(column) === "" ? null : parseNumber(pointed(cell(column), name, table.delimiter !== ","), name);
      },
    };
  });
  return { rows, header: table.header };
}

export interface UnitColumn {
  readonly column: string;
  /** as #units spells it, "" for a plain number */
  readonly unit: string;
  toSI(value: number): number;
}

/**
 * The column `<stem>_<unit>`, for example energy_uJ or speed_mm_per_s; null where there is none. Throws InvalidInput
 * for two of them, one without a unit, an unknown unit and a unit of another dimension than the example's.
 */
export function unitColumn(header: readonly string[], stem: string, example: string): UnitColumn | null {
  const found = header.filter((column) => column === stem || column.startsWith(`${stem}_`));
  if (found.length === 0) return null;
  if (found.length > 1) invalid("column", found[1], "", `${found[0]} is there already: one unit for all`);
  const column = found[0]!;
  const unit = column.slice(stem.length + 1).replaceAll("_per_", "/");
  const wanted = parseUnit(example)!.dimension;
  const given = unit === "" ? null : parseUnit(unit);
  if (given === null || !sameDimension(given.dimension, wanted))
    invalid("column", column, "", `must end in its unit, for example ${stem}_${example.replaceAll("/", "_per_")}`);
  return { column, unit, toSI: (value) => toSI(value, unit) };
}

/** Column of any quantity, or of a plain number where the stem stands alone. Null where there is none. */
export function anyUnitColumn(header: readonly string[], stem: string): UnitColumn | null {
  const column = header.find((c) => c === stem || c.startsWith(`${stem}_`));
  if (column === undefined) return null;
  if (column === stem) return { column, unit: "", toSI: (value) => value };
  const unit = column
    .slice(stem.length + 1)
    .replaceAll("_per_", "/")
    .replace(/^percent$/, "%");
  if (parseUnit(unit) === null) invalid("column", column, "", `must be ${stem} or end in a known unit, ${stem}_um`);
  if (fromSI(0, unit) !== 0) invalid("column", column, "", "give temperatures in K: differences are what counts");
  return { column, unit, toSI: (value) => toSI(value, unit) };
}
