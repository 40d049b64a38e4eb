import { commissioningPdf, offerPdf, procedurePdf, runSheetPdf } from "#papers";
import {
  buildCommissioningSheet,
  buildOffer,
  buildProcedureSheet,
  buildRunSheet,
  type ProcedureInput,
  type Sheet,
  shorten,
} from "#report";
import { describe, expect, it } from "vitest";
import { requirePrintable } from "../../src/papers/glyph-cover.ts";
import {
  commissioningInput,
  continuousSetting,
  continuousSetup,
  longProcedure,
  offerInput,
  procedureInput,
  runInput,
} from "../report/sheets/fixture.ts";
import { shownWords } from "../report/sheets/sheet-text.ts";
import { PdfText } from "./pdf-text.ts";

/** Line ends, places to break a word and hyphens at them are not part of what is said. */
const tight = (text: string): string => text.replace(/[\s\u200b\u00ad\u2010-]+/gu, "");
const points = (raw: string): number[] => [...raw.matchAll(/\/MediaBox \[0 0 ([\d.]+)/g)].map(([, w]) => Number(w));

function expectSaid(pdf: PdfText, sheet: Sheet): void {
  const all = tight(pdf.pages().join(""));
  for (const words of shownWords(sheet)) expect(all).toContain(tight(words));
}

/** Sizes of the text on the first page, pt. */
const sizesOf = (pdf: PdfText): number[] => [...pdf.firstContent().matchAll(/ ([\d.]+) Tf/g)].map(([, s]) => Number(s));

describe.each(["en", "de"] as const)("papers for the shop floor and the customer in %s", (language) => {
  const papers = [
    [
      () => procedurePdf(buildProcedureSheet(procedureInput, language)),
      buildProcedureSheet(procedureInput, language),
      595,
    ],
    [
      () => commissioningPdf(buildCommissioningSheet(commissioningInput, language)),
      buildCommissioningSheet(commissioningInput, language),
      595,
    ],
    [() => runSheetPdf(buildRunSheet(runInput, language)), buildRunSheet(runInput, language), 842],
    [() => offerPdf(buildOffer(offerInput, language)), buildOffer(offerInput, language), 595],
  ] as const;

  it("are tagged PDF/UA-1 on A4, say every word of their models, and come out alike twice", async () => {
    for (const [set, sheet, width] of papers) {
      const bytes = await set();
      const pdf = new PdfText(bytes);
      expect(pdf.raw).toMatch(/<pdfuaid:part>1<\/pdfuaid:part>/);
      expect(pdf.raw).toMatch(/\/MarkInfo <<\s*\/Marked true/);
      expect(pdf.raw).toContain(`/Lang (${language})`);
      expect(pdf.raw).not.toMatch(/\/CreationDate|\/ModDate/);
      for (const found of points(pdf.raw)) expect(Math.round(found)).toBe(width);
      expectSaid(pdf, sheet);
      expect(tight(pdf.pages().join(""))).not.toMatch(/NaN|undefined|Infinity/);
      expect(Buffer.compare(bytes, await set())).toBe(0);
    }
  });

  it("say on every page that the cautions go along", async () => {
    for (const [set, sheet] of papers.slice(1, 3)) {
      const pages = new PdfText(await set()).pages();
      expect(pages.length).toBeGreaterThan(1);
      for (const page of pages) expect(tight(page)).toContain(tight(sheet.footer));
    }
  });
});

const variants: readonly (readonly [string, ProcedureInput])[] = [
  ["usual", procedureInput],
  ["long", longProcedure],
  [
    "predicted only",
    { ...procedureInput, footing: { kind: "predicted" }, eyewear: null, respiratory: null, standOff: null },
  ],
  [
    "continuous, tried, by hand",
    {
      ...longProcedure,
      setup: continuousSetup,
      setting: continuousSetting,
      delivery: "hand",
      footing: { kind: "tried", trialId: "T-014", repeats: { burned: 2, good: 2 } },
      approver: "I. Invented",
    },
  ],
];

describe("procedure sheet on paper", () => {
  it.each(variants.flatMap(([name, input]) => [[name, "en", input] as const, [name, "de", input] as const]))(
    "is exactly one A4 side, no letter under 7.5 pt: %s, %s",
    async (_, language, input) => {
      const sheet = buildProcedureSheet(input, language);
      const pdf = new PdfText(await procedurePdf(sheet));
      expect(points(pdf.raw)).toHaveLength(1);
      const sizes = sizesOf(pdf);
      expect(sizes.length).toBeGreaterThan(10);
      expect(Math.min(...sizes)).toBeGreaterThanOrEqual(7.5 - 1e-6);
      // whatever was left out is named; everything else stands there, word for word
      const all = tight(pdf.pages().join(""));
      const gone = [0, 1, 2, 3, 4, 5].filter((count) => {
        const { losses, lossLead } = shorten(sheet, count);
        return losses.length === 0
          ? !all.includes(tight(lossLead))
          : all.includes(tight(`${lossLead} ${losses.join("; ")}.`));
      });
      expect(gone).toHaveLength(1);
      expectSaid(pdf, shorten(sheet, gone[0]!));
    },
  );

  it("leaves out nothing where there is room, and the largest text that fits is taken", async () => {
    const pdf = new PdfText(await procedurePdf(buildProcedureSheet(procedureInput)));
    expect(tight(pdf.pages()[0]!)).not.toContain(tight("Left out for room"));
    const long = new PdfText(await procedurePdf(buildProcedureSheet(longProcedure)));
    expect(Math.min(...sizesOf(long))).toBeCloseTo(7.5, 6);
    expect(Math.max(...sizesOf(long))).toBeLessThan(Math.max(...sizesOf(pdf)));
  });

  it("is refused, not cut, when cautions and rules alone fill more than the page", async () => {
    const furtherStops = Array.from({ length: 60 }, (_, k) => `Stop rule ${k} that nobody can do without`);
    await expect(procedurePdf(buildProcedureSheet({ ...procedureInput, furtherStops }))).rejects.toThrow(
      /^invalid procedure sheet: E-001-P1 \(must fit on one A4 side at 7\.5 pt/,
    );
  });

  it("breaks a word that is longer than its column instead of running off the page", async () => {
    const word = "x".repeat(200);
    const sheet = buildProcedureSheet({ ...procedureInput, eyewear: word });
    const pdf = new PdfText(await procedurePdf(sheet));
    expect(tight(pdf.pages()[0]!)).toContain(word);
    const longest = Math.max(
      ...pdf
        .runs()[0]!
        .filter((run) => /^x+/.test(run))
        .map((run) => run.length),
    );
    expect(longest).toBeLessThan(60);
  });
});

describe("texts on paper", () => {
  it("print what a person typed as it is, never as typst", async () => {
    const hostile = `#panic("x") $a_b$ ] } \\ *bold* <label> @ref`;
    const sheet = buildOffer({ ...offerInput, title: hostile, scope: [hostile], customer: hostile });
    const all = tight(new PdfText(await offerPdf(sheet)).pages().join(""));
    expect(all.split(tight(hostile)).length).toBeGreaterThan(3);
  });

  it("are refused where the font has no letter for them, in one line that names it", async () => {
    const sheet = buildOffer({ ...offerInput, scope: ["除漆 24 covers"] });
    await expect(offerPdf(sheet)).rejects.toThrow(
      'invalid letter: U+9664 in "除漆 24 covers" (the font of the papers has no such letter)',
    );
    expect(() => requirePrintable("bell \u0007")).toThrow("invalid letter: U+0007");
    for (const fine of ["Größe 0,5 µm ≤ ±2 °C ☐ − – … „Ä“", "Łódź, Škoda, Ελλάδα, Київ", "line\nend"])
      expect(() => requirePrintable(fine)).not.toThrow();
  });

  it("draws the coupon on the run sheet with words for those who do not see it", async () => {
    const { raw } = new PdfText(await runSheetPdf(buildRunSheet(runInput)));
    expect(raw.match(/\/S \/Figure/g)).toHaveLength(2);
    expect(raw.includes("Coupon A, 120 mm by 45 mm, 12 patches with their numbers")).toBe(true);
  });
});
