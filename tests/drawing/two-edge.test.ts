import { barRange, barSentence, graphiteTheme, twoEdgeBarSvg, twoEdgeBarText } from "#drawing";
import type { TwoEdgeBar } from "#terms";
import { describe, expect, it } from "vitest";
import { sharesAt } from "../../src/drawing/two-edge-axis.ts";
import { nodesNamed, soundSvg } from "./xml-check.ts";

const bar: TwoEdgeBar = {
  axis: "fluence",
  removalEdge: { low: 1e4, median: 2e4, high: 4e4 },
  damageEdge: { low: 1e5, median: 2e5, high: 4e5 },
  reachLow: 5e3,
  reachHigh: 3e5,
  best: 6e4,
};
const row = (b: TwoEdgeBar, label = "Pulsed 200 W") => ({ label, kind: "pulsed", bar: b, note: "a note" }) as const;

describe("shares along the bar", () => {
  it("pass through 5, 50 and 95 % at the three points of an edge", () => {
    expect(sharesAt(bar, 1e4).removed).toBeCloseTo(0.05, 9);
    expect(sharesAt(bar, 2e4).removed).toBeCloseTo(0.5, 9);
    expect(sharesAt(bar, 4e5).damaged).toBeCloseTo(0.95, 9);
    expect(sharesAt(bar, 1e3)).toEqual({ removed: 0, damaged: 0 });
  });
});

describe("two-edge bar as a picture", () => {
  it("draws both median lines where the logarithmic axis puts them", () => {
    const root = soundSvg(twoEdgeBarSvg([row(bar)], { width: 680, legend: false }));
    const range = barRange([bar]);
    const [from, to] = [178 + 8, 680 - 166 - 8];
    const expected = (value: number) =>
      from + ((to - from) * Math.log(value / range.low)) / Math.log(range.high / range.low);
    const edges = nodesNamed(root, "line").filter((n) => n.attributes["stroke-width"] === "1.8");
    expect(edges).toHaveLength(2);
    expect(Number(edges[0]!.attributes.x1)).toBeCloseTo(expected(2e4), 2);
    expect(Number(edges[1]!.attributes.x1)).toBeCloseTo(expected(2e5), 2);
    expect(edges[0]!.attributes["stroke-dasharray"]).toBeUndefined();
    expect(edges[1]!.attributes["stroke-dasharray"]).toBe("3 2.5");
  });

  it("letters the axis in J/cm², one axis per kind of source", () => {
    const dose: TwoEdgeBar = { ...bar, axis: "dose" };
    const root = soundSvg(twoEdgeBarSvg([row(bar), row(dose, "Continuous 1.5 kW")]));
    const words = nodesNamed(root, "text").map((n) => n.text);
    expect(words).toContain("peak fluence of one pulse (J/cm²)");
    expect(words).toContain("dose of one pass (J/cm²)");
    // 1e5 J/m² is 10 J/cm²
    expect(words).toContain("10");
    expect(words.indexOf("Pulsed")).toBeLessThan(words.indexOf("Continuous"));
  });

  it("stays sound with missing edges, no best setting, far reach and hostile names", () => {
    const cases: TwoEdgeBar[] = [
      { ...bar, removalEdge: null },
      { ...bar, damageEdge: null, best: null },
      { ...bar, removalEdge: null, damageEdge: null, best: null },
      { ...bar, reachLow: 1e-3, reachHigh: 1e12 },
      { ...bar, reachLow: 1e8, reachHigh: 1e9 },
      { ...bar, removalEdge: { low: 2e4, median: 2e4, high: 2e4 } },
    ];
    const svg = twoEdgeBarSvg(
      cases.map((b) => row(b, `<b>&"' ${"long ".repeat(30)}`)),
      { theme: graphiteTheme, id: "x" },
    );
    const root = soundSvg(svg);
    expect(nodesNamed(root, "b")).toHaveLength(0);
    soundSvg(twoEdgeBarSvg([]));
  });

  it("says in words what it shows", () => {
    expect(barSentence(bar)).toBe(
      "peak fluence of one pulse: layer comes off at 2 J/cm² (1 to 4); metal changes at 20 J/cm² (10 to 40); machine reaches 0.5 to 30 J/cm²; best setting at 6 J/cm²",
    );
    expect(barSentence({ ...bar, removalEdge: null })).toContain("layer does not come off in the range computed");
  });
});

describe("two-edge bar in one line", () => {
  const range = { low: 1e3, high: 1e6 };

  it("marks what is removed, gap, damage, reach and best", () => {
    const line = twoEdgeBarText(bar, 30, range);
    expect(line).toBe("······[···░░▒▒▓▓█◆██▓▓▒╳]╳╳╳╳╳");
    // worked by hand: cell 20 stands for 1.12e5 J/m², 12.5 % damaged, so 87.5 % both, one shade under full
    expect([...line]).toHaveLength(30);
    // one decade is ten characters: the best setting, 6e4, stands 17.8 characters from 1e3
    expect([...line].indexOf("◆")).toBe(17);
  });

  it("shows no gap where the metal changes first", () => {
    const hopeless: TwoEdgeBar = { ...bar, damageEdge: { low: 5e3, median: 6e3, high: 7e3 }, best: null };
    expect(twoEdgeBarText(hopeless, 40, range)).not.toMatch(/[█▓]/);
  });

  it("refuses a width that cannot hold it", () => {
    expect(() => twoEdgeBarText(bar, 3)).toThrow("invalid width: 3 characters (must be a whole number from 8)");
  });
});
