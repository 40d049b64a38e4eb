import {
  buildCommissioningSheet,
  buildOffer,
  buildProcedureSheet,
  buildRunSheet,
  commissioningHtml,
  offerHtml,
  procedureHtml,
  runSheetHtml,
  shorten,
  spareCount,
} from "#report";
import { describe, expect, it } from "vitest";
import { soundSvg } from "../../drawing/xml-check.ts";
import { commissioningInput, longProcedure, offerInput, procedureInput, runInput } from "./fixture.ts";
import { blocksOf, shownWords } from "./sheet-text.ts";

const plain = (html: string): string =>
  html
    .replace(/<style>[\s\S]*?<\/style>/g, "")
    .replace(/<br>/g, " ")
    .replace(/<[^>]+>/g, "\n")
    .replace(/&lt;/g, "<")
    .replace(/&gt;/g, ">")
    .replace(/&#39;/g, "'")
    .replace(/&quot;/g, '"')
    .replace(/&#160;/g, "\u00a0")
    .replace(/&amp;/g, "&");

describe.each(["en", "de"] as const)("papers as pages in %s", (language) => {
  const procedure = buildProcedureSheet(longProcedure, language);
  const commissioning = buildCommissioningSheet(commissioningInput, language);
  const run = buildRunSheet(runInput, language);
  const offer = buildOffer(offerInput, language);
  const pages = [
    [procedure, procedureHtml(procedure)],
    [commissioning, commissioningHtml(commissioning)],
    [run, runSheetHtml(run)],
    [offer, offerHtml(offer)],
  ] as const;

  it("show every word of their models, in their language, and fetch nothing", () => {
    for (const [sheet, html] of pages) {
      const visible = plain(html);
      for (const words of shownWords(sheet)) expect(visible).toContain(words);
      expect(html).toContain(`<html lang="${language}">`);
      expect(html).not.toMatch(/https?:\/\/(?!www\.w3\.org)/);
      expect(visible).not.toMatch(/NaN|undefined|Infinity|\{\w+\}/);
    }
  });

  it("draw each coupon as sound SVG", () => {
    const pictures = pages[2][1].match(/<svg[\s\S]*?<\/svg>/g)!;
    expect(pictures).toHaveLength(2);
    for (const svg of pictures) soundSvg(svg);
  });
});

/** A sheet with something hostile in every text that may come from a person. */
function hostile<T>(node: T, key = ""): T {
  if (typeof node === "string")
    return (["kind", "language", "tone", "align"].includes(key) ? node : node + attack) as T;
  if (Array.isArray(node)) return node.map((item) => hostile(item as unknown)) as T;
  if (typeof node !== "object" || node === null) return node;
  return Object.fromEntries(Object.entries(node).map(([k, value]) => [k, hostile(value as unknown, k)])) as T;
}
const attack = `<script>alert("x")</script> & '`;

describe("papers and what a person typed", () => {
  it("print it as it is, never as markup", () => {
    const procedure = hostile(buildProcedureSheet(procedureInput, "de"));
    const commissioning = hostile(buildCommissioningSheet(commissioningInput));
    const run = hostile(buildRunSheet(runInput));
    const offer = hostile(buildOffer(offerInput));
    for (const [sheet, html] of [
      [procedure, procedureHtml(procedure)],
      [commissioning, commissioningHtml(commissioning)],
      [run, runSheetHtml(run)],
      [offer, offerHtml(offer)],
    ] as const) {
      expect(html).not.toContain("<script");
      const visible = plain(html);
      for (const words of shownWords(sheet)) expect(visible).toContain(words);
    }
  });

  it("say what a drawing shows to those who do not see it", () => {
    const html = runSheetHtml(buildRunSheet(runInput));
    for (const label of ["A", "B"])
      expect(html).toContain(
        `>Coupon ${label}, 120 mm by 45 mm, 12 patches with their numbers, run order below each number.</desc>`,
      );
  });
});

describe("shortening by rule", () => {
  const sheet = buildProcedureSheet(longProcedure);

  it("takes spare blocks in their order, names each, and touches nothing else", () => {
    expect(spareCount(sheet)).toBe(5);
    expect(shorten(sheet, 0)).toEqual(sheet);
    const names = ["mean power at the work, spot at the work", "faces", "less likely stacks", "note", "job"];
    for (let count = 1; count <= 5; count++) {
      const short = shorten(sheet, count);
      expect(short.losses).toEqual(names.slice(0, count));
      expect(blocksOf(short)).toHaveLength(blocksOf(sheet).length - count);
      expect(blocksOf(short).filter(({ spare }) => !spare)).toEqual(blocksOf(sheet).filter(({ spare }) => !spare));
    }
    expect(shorten(sheet, 9)).toEqual(shorten(sheet, 5));
  });

  it("never spares a setting, a box of cautions or stop rules, limits, checks or equipment", () => {
    for (const block of blocksOf(sheet)) if (block.spare) expect(block.kind).toBe("facts");
    const whole = shorten(sheet, 5).rows.flatMap(({ columns }) => columns.flatMap(({ sections }) => sections));
    expect(whole.map(({ id }) => id)).toEqual(
      sheet.rows.flatMap(({ columns }) => columns.flatMap(({ sections }) => sections)).map(({ id }) => id),
    );
  });
});
