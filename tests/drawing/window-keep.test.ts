import { windowMapSvg } from "#drawing";
import { buildReport } from "#report";
import { describe, expect, it } from "vitest";
import { reportHtml } from "#report";
import { reportInput } from "../report/fixture.ts";
import { nodesNamed, soundSvg } from "./xml-check.ts";

const nodes = [1, 2, 3, 4, 5];
const map = {
  xName: "peak fluence (J/cm²)",
  yName: "speed (m/s)",
  x: nodes,
  y: nodes,
  probabilityClean: new Array<number>(25).fill(0.99),
  probabilityUndamaged: new Array<number>(25).fill(0.99),
};
/** Columns and rows from 0, row 0 at the bottom. */
const kept = (holds: (column: number, row: number) => boolean): boolean[] =>
  nodes.flatMap((_, row) => nodes.map((_, column) => holds(column, row)));
const drawn = (conservative: boolean[]) => soundSvg(windowMapSvg({ ...map, conservative }, [], null, { id: "m" }));
const words = (svg: ReturnType<typeof soundSvg>) => nodesNamed(svg, "text").map((n) => n.text);
const areaOf = (svg: ReturnType<typeof soundSvg>) =>
  nodesNamed(svg, "path").find((n) => n.attributes["fill-rule"] === "evenodd");
const points = (d: string) => [...d.matchAll(/([\d.]+) ([\d.]+)/g)].map((m) => [Number(m[1]), Number(m[2])] as const);
// the frame of the map: 66..484 across, 12..378 down; nodes stand 104.5 and 91.5 apart
const column = (i: number) => 66 + 104.5 * i;
const row = (j: number) => 378 - 91.5 * j;

describe("what is kept under drift on a map", () => {
  it("is hatched half way out from the nodes that are kept", () => {
    const svg = drawn(kept((i, j) => i === 2 && j === 3));
    const ring = points(areaOf(svg)!.attributes.d!);
    const expected = [
      [column(1.5), row(3)],
      [column(2), row(2.5)],
      [column(2), row(3.5)],
      [column(2.5), row(3)],
    ];
    for (const [x, y] of expected)
      expect(
        ring.some(([px, py]) => Math.abs(px - x!) < 0.01 && Math.abs(py - y!) < 0.01),
        `${x} ${y}`,
      ).toBe(true);
    expect(areaOf(svg)!.attributes.fill).toBe("url(#m-kept)");
    expect(nodesNamed(svg, "pattern").map((n) => n.attributes.id)).toEqual(["m-kept"]);
  });

  it("reaches to the frame, without an outline along it", () => {
    const svg = drawn(kept((i) => i >= 3));
    const ring = points(areaOf(svg)!.attributes.d!);
    expect(Math.max(...ring.map(([x]) => x))).toBeCloseTo(484, 3);
    expect([Math.min(...ring.map(([, y]) => y)), Math.max(...ring.map(([, y]) => y))]).toEqual([12, 378]);
    const edge = nodesNamed(svg, "path").find((n) => n.attributes["stroke-width"] === "3.6")!;
    for (const [x] of points(edge.attributes.d!)) expect(x).toBeCloseTo(column(2.5), 3);
  });

  it("leaves a hole where the middle is not kept", () => {
    const d = areaOf(drawn(kept((i, j) => !(i === 2 && j === 2))))!.attributes.d!;
    expect(d.match(/M/g)).toHaveLength(2);
  });

  it("has its words in the key and for those who do not see the picture", () => {
    const svg = drawn(kept((i) => i >= 3));
    expect(words(svg).join(" ")).toContain("kept by 95 of 100 versions under drift");
    // 10 of 25 nodes
    expect(nodesNamed(svg, "desc")[0]!.text).toContain("40 % of this map is kept by 95 of 100 versions under drift.");
  });

  it("says so where nothing is kept, and nothing where the map does not know", () => {
    const nowhere = drawn(kept(() => false));
    expect(areaOf(nowhere)).toBeUndefined();
    expect(words(nowhere).join(" ")).toContain("kept by 95 of 100 versions under drift: nowhere here");
    expect(nodesNamed(nowhere, "desc")[0]!.text).toContain("No place on this map is kept");
    const unknown = soundSvg(windowMapSvg(map, [], null));
    expect(words(unknown).join(" ")).not.toContain("kept by");
    expect(nodesNamed(unknown, "pattern")).toHaveLength(0);
  });

  it("refuses a list that does not fit the map", () => {
    expect(() => drawn([true])).toThrow("invalid conservative window: 1 values (must be as many as x times y)");
  });

  it("is hatched in every map of a report with a pattern of its own", () => {
    const html = reportHtml(buildReport(reportInput));
    const used = [...html.matchAll(/url\(#([^)]+-kept)\)/g)].map((m) => m[1]);
    const defined = [...html.matchAll(/<pattern id="([^"]+-kept)"/g)].map((m) => m[1]);
    expect(defined).toHaveLength(1);
    expect(new Set(used)).toEqual(new Set(defined));
  });
});
