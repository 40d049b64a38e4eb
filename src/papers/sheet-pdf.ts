import { type Sheet, shorten, spareCount } from "#report";
import { invalid } from "#units";
import { setPaperWithin } from "./compile.ts";
import { sheetData } from "./sheet-data.ts";
import { leastSize, sheetTemplate } from "./sheet-template.ts";

/** Sizes of the text that are tried, in points, the largest that fits is taken. */
const sizes = [9, 8.7, 8.4, 8.1, 7.8, leastSize] as const;

const set = (sheet: Sheet, size: number, pages: number, mix = false): Uint8Array | null =>
  setPaperWithin(sheetTemplate, sheetData(sheet, size, mix), pages);

/**
 * The procedure sheet as a tagged PDF/UA-1 file of exactly one A4 side. Text is made smaller down to 7.5 pt; then what
 * is spare is left out, one block at a time, and named on the sheet. Throws InvalidInput when it still does not fit:
 * nothing is cut off.
 */
export async function procedurePdf(sheet: Sheet<"procedure">): Promise<Uint8Array> {
  for (const size of sizes) {
    const pdf = set(sheet, size, 1);
    if (pdf !== null) return pdf;
  }
  for (let gone = 0; gone <= spareCount(sheet); gone++) {
    const pdf = set(shorten(sheet, gone), leastSize, 1, true);
    if (pdf !== null) return pdf;
  }
  const rule = `must fit on one A4 side at ${leastSize} pt with nothing but cautions, limits, setting and checks: shorten the texts handed in`;
  return invalid("procedure sheet", sheet.documentId, "", rule);
}

/** The commissioning sheet on A4 as a tagged PDF/UA-1 file. */
export async function commissioningPdf(sheet: Sheet<"commissioning">): Promise<Uint8Array> {
  return set(sheet, 8.5, Number.POSITIVE_INFINITY)!;
}

/** The coupon run sheet on A4 on its side as a tagged PDF/UA-1 file. */
export async function runSheetPdf(sheet: Sheet<"run-sheet">): Promise<Uint8Array> {
  return set(sheet, 8.2, Number.POSITIVE_INFINITY)!;
}

/** The offer on A4 as a tagged PDF/UA-1 file. */
export async function offerPdf(sheet: Sheet<"offer">): Promise<Uint8Array> {
  return set(sheet, 9, Number.POSITIVE_INFINITY)!;
}
