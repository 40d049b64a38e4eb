import { printTheme } from "#drawing";
import { type Sheet, type SheetBlock, type SheetSection, sketchSvg } from "#report";
import { fromSI } from "#units";
import { requirePrintable } from "./glyph-cover.ts";

/** Longest run of letters without a place to break a line; zero-width spaces let longer ones go on in the next line. */
const longestRun = 26;
/** A figure and its unit stay on one line. */
const figureAndUnit = /(\d) (?=(?:%|°C|m²|µm|nm|mm|m|kHz|Hz|kW|W|ns|s|h|min|MPa|J|µΩ)(?![\p{L}\d]))/gu;
const breakable = (words: string): string =>
  words
    .replace(figureAndUnit, "$1\u00a0")
    .replace(new RegExp(`\\S{${longestRun}}(?=\\S)`, "gu"), (run) => `${run}\u200b`);

/** Room between lines, in heights of the text. */
const leading = { procedure: 0.42, commissioning: 0.5, "run-sheet": 0.46, offer: 0.58 } as const;

/** Widest drawing of a coupon on a run sheet, mm, shared by those that stand side by side. */
const sketchRoom = 104;
/** and all of them one above the other, mm */
const sketchHeight = 48;

/**
 * A sheet as the template takes it, every text checked for letters that the font does not have. `mix` lets sections
 * that flow stand in any column, where their order takes more room than there is.
 */
export function sheetData(sheet: Sheet, size: number, mix = false): unknown {
  const data = {
    title: sheet.title,
    subtitle: sheet.subtitle,
    language: sheet.language,
    authors: sheet.approver === null ? [] : [sheet.approver],
    keywords: [sheet.documentId],
    head: sheet.head,
    marks: sheet.marks,
    footer: sheet.footer,
    pageWord: sheet.pageWord,
    losses: sheet.losses,
    lossLead: sheet.lossLead,
    rows: sheet.rows.map(({ flow, columns }) => ({
      flow,
      columns: columns.map(({ share, sections }) => ({ share, sections: sections.map(sectionData) })),
    })),
  };
  const upright = sheet.upright;
  // room to write by hand; tighter where one page has to do
  const write = sheet.kind === "procedure" ? 4 : 5.4;
  return {
    ...(withWords(data) as object),
    size,
    mix,
    upright,
    write,
    roomy: sheet.kind === "offer",
    lead: leading[sheet.kind],
  };
}

function sectionData({ id, heading, blocks }: SheetSection): unknown {
  const sketches = blocks.filter((block) => block.kind === "sketch");
  const first = blocks.findIndex((block) => block.kind === "sketch");
  const rest: unknown[] = blocks.filter((block) => block.kind !== "sketch");
  if (sketches.length > 0) rest.splice(first, 0, ...sketchRows(sketches, id));
  return { id, heading, blocks: rest };
}

/** One above the other while half a page holds them; more of them two or three abreast. */
function sketchRows(blocks: readonly SheetBlock[], id: string): unknown[] {
  const abreast = blocks.length <= 2 ? 1 : blocks.length <= 6 ? 2 : 3;
  const deep = Math.ceil(blocks.length / abreast);
  const drawn = blocks.flatMap((block, k) => {
    if (block.kind !== "sketch") return [];
    const { coupon } = block;
    // no coupon is drawn larger than it is
    const ratio = coupon.height / coupon.width;
    const width = Math.min(
      fromSI(coupon.width, "mm"),
      sketchRoom / abreast - 4,
      Math.max(18, sketchHeight / deep) / ratio,
    );
    const svg = sketchSvg(coupon, `figure-${id}-${k}`, printTheme);
    return [{ label: coupon.label, alt: { raw: coupon.description }, svg: { raw: svg }, width }];
  });
  const rows: unknown[] = [];
  for (let k = 0; k < drawn.length; k += abreast) rows.push({ kind: "sketches", list: drawn.slice(k, k + abreast) });
  return rows;
}

/** Every text made fit for the page; drawings and the words that stand for them are left as they are. */
function withWords(node: unknown): unknown {
  if (typeof node === "string") {
    requirePrintable(node);
    return breakable(node);
  }
  if (Array.isArray(node)) return node.map(withWords);
  if (typeof node !== "object" || node === null) return node;
  if ("raw" in node) return node.raw;
  return Object.fromEntries(Object.entries(node).map(([key, value]) => [key, withWords(value)]));
}
