import { invalid } from "#units";
import { attribute, elementsOf, tagsOf } from "./xml-tags.ts";

/** Most rows and columns that are read, and most cells of both. A reader makes room for every cell up to the last. */
const rowsMax = 100_000;
const columnsMax = 1000;
const cellsMax = 5_000_000;

/** Number of a column by its letters, A is 1. */
const columnOf = (letters: string): number => [...letters].reduce((n, letter) => 26 * n + letter.charCodeAt(0) - 64, 0);

/** The sheet without rows in which nothing stands: spreadsheets write formatted ones down to the last of a million. */
export function withoutEmptyRows(sheet: string): string {
  const filled = sheet.replace(elementsOf("row"), (whole, _, inner: string) =>
    /<(?:v|is)[\s>]/.test(inner) ? whole : "",
  );
  return filled.replace(tagsOf("row"), (whole, tag: string) => (tag.endsWith("/") ? "" : whole));
}

/**
 * Refuses a sheet whose last cell lies so far out that the empty ones before it would fill the memory, and places that
 * are written otherwise than as `12` and `AB12`.
 */
export function requireExtent(sheet: string, what: string): void {
  let rows = 0;
  let columns = 0;
  for (const [, tag] of sheet.matchAll(tagsOf("row", "c"))) {
    const place = attribute(tag!, "r");
    if (place === null) continue;
    const [, letters, row] =
      /^([A-Z]{0,3})(\d{1,7})$/.exec(place) ?? invalid(what, place, "", "is no place on a sheet");
    rows = Math.max(rows, Number(row));
    columns = Math.max(columns, columnOf(letters!));
  }
  if (rows > rowsMax || columns > columnsMax || rows * columns > cellsMax)
    invalid(what, `${rows} rows, ${columns} columns`, "", `at most ${rowsMax}, ${columnsMax} and ${cellsMax} cells`);
}
