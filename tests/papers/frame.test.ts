import { frameFor } from "#grading";
import { framePdf } from "#papers";
import { describe, expect, it } from "vitest";
import { PdfText } from "./pdf-text.ts";

const words = { coupon: "A1", trial: "hatch covers" };
const pageOf = (raw: string): number[] => {
  const box = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(raw)!;
  return [Number(box[1]), Number(box[2])].map((points) => Math.round((points / 72) * 254) / 10);
};

describe("frame sheet as a paper", () => {
  it("is tagged, on the smallest paper in one page, the picture at true size", async () => {
    const cases = [
      [150, 100, [210, 297], 186],
      [200, 150, [297, 210], 236],
      [200, 180, [297, 420], 236],
      [260, 200, [420, 297], 296],
    ] as const;
    for (const [width, height, page, picture] of cases) {
      const frame = frameFor({ width: width / 1e3, height: height / 1e3 }, { coupon: 1 });
      const { raw } = new PdfText(await framePdf(frame, words));
      expect(raw).toMatch(/<pdfuaid:part>1<\/pdfuaid:part>/);
      expect([...raw.matchAll(/\/MediaBox/g)]).toHaveLength(1);
      expect(pageOf(raw)).toEqual(page);
      expect(picture).toBe(width + 36);
    }
  });

  it("is named after its coupon, in the words that a person typed, and gives the same bytes twice", async () => {
    const frame = frameFor({ width: 150e-3, height: 100e-3 }, { coupon: 1 });
    const typed = { ...words, trial: "#panic[x] $a_b$" };
    const bytes = await framePdf(frame, typed);
    const { raw } = new PdfText(bytes);
    expect(raw).toContain("Frame sheet for coupon A1, trial #panic[x] $a_b$");
    expect(Buffer.compare(bytes, await framePdf(frame, typed))).toBe(0);
  });

  it("uses the papers that the printer has, or refuses in one line", async () => {
    const frame = frameFor({ width: 150e-3, height: 100e-3 }, { coupon: 1 });
    const { raw } = new PdfText(await framePdf(frame, { ...words, papers: ["letter"] }));
    expect(pageOf(raw)).toEqual([215.9, 279.4]);
    const large = frameFor({ width: 260e-3, height: 200e-3 }, { coupon: 1 });
    await expect(framePdf(large, { ...words, papers: ["a4"] })).rejects.toThrow(
      /^invalid frame sheet: 296 x 250 mm \(must fit on A4 at true size with 5 mm left white around\)$/,
    );
  });
});
