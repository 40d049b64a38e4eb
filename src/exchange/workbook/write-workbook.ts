import writeXlsxFile from "write-excel-file/node";
import { unzipFiles } from "../zip/zip-read.ts";
import { zipFiles } from "../zip/zip-write.ts";
import type { Cell, Table } from "../tables/table.ts";
import { workbookLimits } from "./limits.ts";

/** Text that reads like a written-out character code would come back as that character (ECMA-376-1, ST_Xstring). */
const escaped = (text: string): string => text.replace(/_x(?=[0-9A-Fa-f]{4}_)/g, "_x005F_x");

/** The type is always stated: a text that begins with = + - @ stays text, and no formula is ever written. */
function sheetCell(cell: Cell) {
  if (cell === null) return null;
  return typeof cell === "number"
    ? { value: cell, type: Number }
    : { value: escaped(cell), type: String, wrap: cell.length > 60 };
}

/** Width in characters that shows the widest cell, in bounds that a screen can show. */
function widthOf(table: Table, column: number): number {
  const head = table.columns[column]!.name.length;
  return 2 + table.rows.reduce((most, row) => Math.min(58, Math.max(most, String(row[column] ?? "").length)), head);
}

/**
 * Tables as one workbook (Office Open XML), a sheet for each: the header row names column and unit as the CSV does,
 * numbers are numbers, texts are texts. The same tables give the same bytes.
 */
export async function tablesToXlsx(tables: readonly Table[]): Promise<Uint8Array> {
  const sheets = tables.map((table) => ({
    sheet: table.title,
    stickyRowsCount: 1,
    columns: table.columns.map((_, i) => ({ width: widthOf(table, i) })),
    data: [
      table.columns.map(({ name }) => ({ value: escaped(name), type: String, fontWeight: "bold" as const })),
      ...table.rows.map((row) => row.map(sheetCell)),
    ],
  }));
  const written = await writeXlsxFile(sheets).toBuffer();
  // Packed once more without the time of day that the first packing carries.
  const parts = unzipFiles(written, "workbook", workbookLimits);
  return zipFiles([...parts].map(([path, bytes]) => ({ path, bytes })));
}
