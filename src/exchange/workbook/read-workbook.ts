import { Buffer } from "node:buffer";
import readXlsxFile from "read-excel-file/node";
import { textMax } from "#contract";
import { InvalidInput, invalid } from "#units";
import { unzipFiles } from "../zip/zip-read.ts";
import { zipFiles } from "../zip/zip-write.ts";
import { requireExtent, withoutEmptyRows } from "./extent.ts";
import { workbookLimits } from "./limits.ts";
import { percentStyles, plainCells } from "./plain-cells.ts";
import { tagsEnd } from "./xml-tags.ts";

export interface Sheet {
  readonly name: string;
  /** from row 1 on, empty rows included; a cell that holds nothing is "" */
  readonly rows: readonly (readonly string[])[];
}

/** A zip has the mark PK and a workbook has this part; a CSV under the wrong name has neither. */
const bookPart = "xl/workbook.xml";

const decode = (bytes: Uint8Array | undefined): string => new TextDecoder().decode(bytes ?? new Uint8Array());

/** The workbook again, with the cells plain that a bare reading would falsify. */
function madePlain(parts: ReadonlyMap<string, Uint8Array>, what: string): Uint8Array {
  const percents = percentStyles(decode(parts.get("xl/styles.xml")));
  const xmlParts = [...parts].filter(([path]) => /\.(xml|rels)$/.test(path));
  return zipFiles(
    xmlParts.map(([path, bytes]) => {
      const xml = decode(bytes);
      if (!tagsEnd(xml)) invalid(what, path, "", "is no XLSX workbook, or damaged: a tag does not end");
      // By what it holds: a workbook may keep its sheets under any path.
      if (!/<sheetData[\s>/]/.test(xml)) return { path, bytes, packed: true };
      const sheet = withoutEmptyRows(xml);
      requireExtent(sheet, what);
      return { path, bytes: new TextEncoder().encode(plainCells(sheet, percents)), packed: true };
    }),
  );
}

function textOf(cell: unknown): string {
  if (cell === null || cell === undefined) return "";
  // A cell that a spreadsheet took for a date: the day is said, and the reader of the column refuses it.
  if (cell instanceof Date) return Number.isNaN(cell.getTime()) ? "a date" : cell.toISOString().slice(0, 10);
  return String(cell);
}

/**
 * Every sheet of a workbook (Office Open XML, .xlsx) as texts. Formulas count with their last result. Throws InvalidInput
 * for what is no workbook, damaged or larger than anybody fills by hand.
 */
export async function readWorkbook(bytes: Uint8Array, what: string): Promise<Sheet[]> {
  const parts = unzipFiles(bytes, what, workbookLimits);
  if (!parts.has(bookPart)) invalid(what, "a zip archive", "", "is no XLSX workbook");
  try {
    const sheets = await readXlsxFile(Buffer.from(madePlain(parts, what)));
    // Cells share texts inside the file: a small one may hold more than fits anywhere.
    let length = 0;
    return sheets.map(({ sheet, data }) => ({
      name: sheet,
      rows: data.map((row) =>
        row.map((cell) => {
          const text = textOf(cell);
          length += text.length;
          if (length > textMax)
            invalid(what, `over ${textMax / 1e6} MB`, "", `at most ${textMax / 1e6} MB of text are read`);
          return text;
        }),
      ),
    }));
  } catch (error) {
    if (error instanceof InvalidInput) throw error;
    return invalid(what, error instanceof Error ? error.message : "unreadable", "", "is no XLSX workbook, or damaged");
  }
}
