import { couponPdf, PaperFault, reportPdf } from "#papers";
import { buildReport } from "#report";
import { describe, expect, it } from "vitest";
import { setPaper } from "../../src/papers/compile.ts";
import { reportInput } from "../report/fixture.ts";
import { trial } from "../report/fixture-trial.ts";
import { withText } from "../report/walk.ts";
import { PdfText } from "./pdf-text.ts";

const model = buildReport(reportInput);
const coupon = trial.coupons[0]!;
/** Line ends are lost in the text, so compare without spaces. */
const tight = (text: string): string => text.replace(/\s+/g, "");

describe("report as a paper", () => {
  it("is a tagged PDF/UA-1 file on A4 with its title and language", async () => {
    const { raw } = new PdfText(await reportPdf(model));
    expect(raw.slice(0, 8)).toBe("%PDF-1.7");
    expect(raw).toMatch(/<pdfuaid:part>1<\/pdfuaid:part>/);
    expect(raw).toMatch(/\/MarkInfo <<\s*\/Marked true/);
    expect(raw).toMatch(/\/Lang \(en\)/);
    expect(raw).toContain(model.title);
    expect(raw).not.toMatch(/\/CreationDate|\/ModDate/);
    for (const [, width, height] of raw.matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)) {
      expect(Number(width)).toBeCloseTo((210 / 25.4) * 72, 2);
      expect(Number(height)).toBeCloseTo((297 / 25.4) * 72, 2);
    }
  });

  it("gives the same bytes twice", async () => {
    const [first, second] = [await reportPdf(model), await reportPdf(model)];
    expect(Buffer.compare(first, second)).toBe(0);
    const other = await reportPdf({ ...model, dateText: "3 November 2026" });
    expect(Buffer.compare(first, other)).not.toBe(0);
  });

  it("has the whole answer on its first page, with cautions and what was not measured", async () => {
    const pages = new PdfText(await reportPdf(model)).pages().map(tight);
    expect(pages.length).toBeGreaterThan(3);
    const [first] = pages;
    for (const text of [
      "Pulsed 200 W, 100 ns",
      "0.187 m²/h",
      "231 h",
      "Proven on 5 patches",
      "Cautions",
      "not measured",
    ])
      expect(first).toContain(tight(text));
    for (const section of model.answer) expect(first).toContain(tight(section.heading));
    const all = pages.join("");
    for (const section of model.details) expect(all).toContain(tight(section.heading));
    for (const caution of reportInput.cautions) expect(all).toContain(tight(caution));
    expect(all).not.toMatch(/NaN|undefined|Infinity/);
  });

  it("prints what a person typed as it is, never as typst", async () => {
    const hostile = ` #panic("x") $a_b$ ] } \\ *bold* #let x = 1 <label> @ref`;
    const changed = buildReport(withText(reportInput, (text) => `${text}${hostile}`));
    const first = tight(new PdfText(await reportPdf(changed)).pages()[0]!);
    expect(first).toContain(tight(hostile));
  });

  it("refuses a picture without words for those who do not see it", () => {
    const picture =
      '#set document(title: "t")\n#image(bytes("<svg xmlns=\'http://www.w3.org/2000/svg\' viewBox=\'0 0 1 1\'/>"), format: "svg")';
    expect(() => setPaper(picture, {})).toThrow(PaperFault);
    expect(() => setPaper(picture, {})).toThrow("PDF/UA-1");
  });

  it("says that a template is broken", () => {
    expect(() => setPaper("#let x = (", {})).toThrow("the paper could not be set");
  });
});

describe("coupon as a paper", () => {
  it("is set on A4 at true size: a millimetre of the coupon is a millimetre on paper", async () => {
    const pdf = new PdfText(await couponPdf(trial, coupon));
    expect(pdf.raw).toMatch(/\/MediaBox \[0 0 595\.27\d* 841\.88\d*\]/);
    expect(pdf.raw).toMatch(/<pdfuaid:part>1<\/pdfuaid:part>/);
    expect(tight(pdf.pages()[0]!)).toContain(tight("Print at 100 %, no scaling."));
    // the plate, 120 x 80 units, is drawn under a scale of one millimetre per unit; 1 mm is 72/25.4 pt
    const before = pdf.firstContent().split("0 0 m\n120 0 l\n120 80 l\n0 80 l\n")[0]!;
    const scales = [...before.matchAll(/([\d.]+) 0 0 -([\d.]+) [\d.]+ [\d.]+ cm\n/g)].at(-1)!;
    expect(before.length).toBeLessThan(pdf.firstContent().length);
    expect(Number(scales[1])).toBeCloseTo(72 / 25.4, 5);
    expect(Number(scales[2])).toBeCloseTo(72 / 25.4, 5);
  });

  it("takes a larger sheet for a larger coupon and refuses what no sheet holds", async () => {
    const wide = { ...coupon, width: 0.25, height: 0.1 };
    expect(new PdfText(await couponPdf(trial, wide)).raw).toMatch(/\/MediaBox \[0 0 841\.88\d* 595\.27\d*\]/);
    const huge = { ...coupon, width: 0.6, height: 0.6 };
    await expect(couponPdf(trial, huge)).rejects.toThrow("must fit on an A3 sheet at true size");
  });

  it("gives the same bytes twice", async () => {
    expect(Buffer.compare(await couponPdf(trial, coupon), await couponPdf(trial, coupon))).toBe(0);
  });
});
