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
import { withText } from "../walk.ts";
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

describe("papers and what a person typed", () => {
  it("print it as it is, never as markup", () => {
    const hostile = `<script>alert("x")</script> & '`;
    const { setup, setting, scan, ...texts } = procedureInput;
    const changed = { ...withText(texts, (one) => `${one}${hostile}`), setup, setting, scan };
    const kept = { ...changed, delivery: "scanner", documentId: hostile, revision: "<b>", dateText: "<i>" } as const;
    const part = { ...kept.part, faces: procedureInput.part.faces, acceptance: procedureInput.part.acceptance };
    const footing = { ...procedureInput.footing, trialId: hostile } as typeof procedureInput.footing;
    const html = procedureHtml(buildProcedureSheet({ ...kept, part, footing }));
    expect(html).not.toContain("<script");
    expect(plain(html)).toContain(hostile);
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
