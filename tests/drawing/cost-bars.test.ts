import { type Sensitivity, sensitivity } from "#cost";
import { costBarsSvg, graphiteTheme } from "#drawing";
import { describe, expect, it } from "vitest";
import { nodesNamed, soundSvg, type XmlNode } from "./xml-check.ts";

const figures = {
  labour: { low: 30, middle: 40, high: 60 },
  hours: { low: 500, middle: 1000, high: 2000 },
  fixed: { low: 3, middle: 3, high: 3 },
};
const found = sensitivity(figures, (v) => v.labour + 10000 / v.hours + v.fixed);
const options = {
  axisName: "cost (EUR/m²)",
  note: "invented example figures, replace with your own",
  words: (name: string) => ({ name, low: `${name} low`, high: `${name} high` }),
};
const bars = (root: XmlNode) =>
  nodesNamed(root, "rect")
    .filter((n) => n.attributes.height === "16")
    .map(({ attributes: a }) => ({ from: Number(a.x), width: Number(a.width), fill: a.fill! }));
const words = (root: XmlNode) => nodesNamed(root, "text").map((n) => n.text);
const middleOf = (root: XmlNode) =>
  Number(nodesNamed(root, "line").find((n) => n.attributes["stroke-width"] === "1.6")!.attributes.x1);

describe("cost sensitivity bars", () => {
  it("draws each figure from the middle to its two results, in proportion, largest on top", () => {
    const root = soundSvg(costBarsSvg(found, options));
    const middle = middleOf(root);
    // Middle 53: labour 43 and 73; hours 63 at their low end, 48 at their high end.
    const [labourLow, labourHigh, hoursLow, hoursHigh] = bars(root);
    expect(bars(root)).toHaveLength(4);
    const unit = labourHigh!.width / 20;
    expect(labourLow!.width / unit).toBeCloseTo(10, 1);
    expect(hoursLow!.width / unit).toBeCloseTo(10, 1);
    expect(hoursHigh!.width / unit).toBeCloseTo(5, 1);
    expect(labourLow!.from + labourLow!.width).toBeCloseTo(middle, 2);
    expect(labourHigh!.from).toBeCloseTo(middle, 2);
    // Fewer hours make it dearer: their low end lies to the right.
    expect(hoursLow!.from).toBeCloseTo(middle, 2);
    expect(hoursHigh!.from + hoursHigh!.width).toBeCloseTo(middle, 2);
    expect([labourLow!.fill, hoursLow!.fill]).toEqual(["url(#cost-bars-low)", "url(#cost-bars-low)"]);
    expect(hoursHigh!.fill).toBe(labourHigh!.fill);
  });

  it("writes both ends, the middle, the axis and where the figures come from", () => {
    const all = words(soundSvg(costBarsSvg(found, options)));
    for (const text of ["labour", "labour low", "hours high", "cost (EUR/m²)", options.note])
      expect(all).toContain(text);
    expect(all.join(" ")).toContain("all at the middle, 53");
    expect(all).not.toContain("fixed");
    const desc = nodesNamed(soundSvg(costBarsSvg(found, options)), "desc")[0]!.text;
    expect(desc).toContain("labour: 43 at labour low, 73 at labour high");
    expect(desc).toContain(options.note);
  });

  it("keeps all letters inside the picture", () => {
    const long = (name: string) => ({
      name: `${name} ${"long ".repeat(20)}`,
      low: "1,000,000 EUR",
      high: "2,000,000 EUR",
    });
    const root = soundSvg(costBarsSvg(found, { ...options, words: long }));
    for (const { attributes: a, text } of nodesNamed(root, "text")) {
      const width = 0.7 * Number(a["font-size"]) * text.length;
      const x = Number(a.x);
      if (a["text-anchor"] === "end") expect(x - width).toBeGreaterThan(0);
      else if (a["text-anchor"] !== "middle") expect(x + 0.85 * width).toBeLessThan(690);
    }
  });

  it("stays sound with one row, none, no swing and hostile names", () => {
    const one: Sensitivity = { middle: 5, rows: found.rows.slice(0, 1).map((r) => ({ ...r, name: `<b>&"'` })) };
    const root = soundSvg(costBarsSvg(one, { ...options, id: "x", theme: graphiteTheme }));
    expect(nodesNamed(root, "b")).toHaveLength(0);
    const none = soundSvg(costBarsSvg({ middle: 0, rows: [] }, options));
    expect(nodesNamed(none, "desc")[0]!.text).toContain("No figure has a spread.");
    const still = { middle: 5, rows: [{ ...found.rows[0]!, resultAtLow: 5, resultAtHigh: 5, swing: 0 }] };
    expect(bars(soundSvg(costBarsSvg(still, options)))).toHaveLength(0);
    expect(costBarsSvg(found, options)).toBe(costBarsSvg(found, options));
    expect(() => costBarsSvg({ middle: Number.NaN, rows: [] }, options)).toThrow("invalid result: not a number");
  });
});
