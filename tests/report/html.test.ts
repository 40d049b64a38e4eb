import { buildReport, reportHtml } from "#report";
import { describe, expect, it } from "vitest";
import { soundSvg } from "../drawing/xml-check.ts";
import { reportInput } from "./fixture.ts";
import { allText, withText } from "./walk.ts";

const model = buildReport(reportInput);
const html = reportHtml(model);
const visible = html
  .replace(/<style>[\s\S]*?<\/style>/g, "")
  .replace(/<svg[\s\S]*?<\/svg>/g, "")
  .replace(/<[^>]+>/g, "\n")
  .replace(/&lt;/g, "<")
  .replace(/&gt;/g, ">")
  .replace(/&#39;/g, "'")
  .replace(/&quot;/g, '"')
  .replace(/&amp;/g, "&");

describe("report as a page", () => {
  it("shows every text of the model", () => {
    for (const section of [...model.answer, ...model.details]) {
      expect(visible).toContain(section.heading);
      for (const block of section.blocks) {
        if (block.kind === "figure") expect(visible).toContain(block.caption);
        else
          for (const text of allText(block))
            if (!["left", "right", block.kind, ...(block.kind === "answer" ? [block.evidence] : [])].includes(text))
              expect(visible).toContain(text);
      }
    }
  });

  it("draws every figure as sound SVG with ids of its own", () => {
    const pictures = html.match(/<svg[\s\S]*?<\/svg>/g)!;
    const figures = [...model.answer, ...model.details].flatMap((s) => s.blocks.filter((b) => b.kind === "figure"));
    expect(pictures).toHaveLength(figures.length);
    for (const picture of pictures) soundSvg(picture);
    const ids = [...html.matchAll(/ id="([^"]+)"/g)].map((m) => m[1]);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it("stands alone: nothing fetched, nothing run", () => {
    expect(html).not.toMatch(/<script|<link|<iframe|<img|\bsrc=|\bhref=|@import|url\((?!#)/i);
    expect(html).toContain("default-src 'none'");
    expect(html).toMatch(/<html lang="en">/);
    expect(html).toContain("prefers-color-scheme: dark");
    expect(html).toContain("@media print");
  });

  it("escapes everything that a person may have typed", () => {
    const hostile = `</p><script>alert(1)</script>" onload="x`;
    const page = reportHtml(buildReport(withText(reportInput, (text) => `${text}${hostile}`)));
    expect(page).not.toMatch(/<script/i);
    expect(page).not.toMatch(/<[^>]*" onload="/);
    expect(page).toContain("&lt;script&gt;alert(1)&lt;/script&gt;");
    for (const picture of page.match(/<svg[\s\S]*?<\/svg>/g)!) soundSvg(picture);
  });

  it("shows no broken number and no verdict of safety", () => {
    expect(visible).not.toMatch(/NaN|undefined|\bnull\b|Infinity|\[object|\bsafe\b/i);
  });

  it("puts cautions beside every setting", () => {
    const blocks = html.split('<div class="setting">').slice(1);
    expect(blocks).toHaveLength(2);
    for (const block of blocks) expect(block.slice(0, block.indexOf("</section>"))).toContain('class="cautions"');
  });
});
