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
/** Even-odd rule over every ring of a path. */
const inside = (d: string, x: number, y: number): boolean => {
  let crossings = 0;
  for (const ring of d.split("M").slice(1)) {
    const corners = points(ring);
    corners.forEach(([ax, ay], k) => {
      const [bx, by] = corners[(k + 1) % corners.length]!;
      if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) crossings++;
    });
  }
  return crossings % 2 === 1;
};
// the frame of the map: 66..484 across, 12..378 down; nodes stand 104.5 and 91.5 apart
const column = (i: number) => 66 + 104.5 * i;
const row = (j: number) => 378 - 91.5 * j;

describe("what is kept under drift on a map", () => {
  it("is hatched around the nodes that are kept and around no other", () => {
    // a bay open to the right: convex and concave corners, and two nodes that touch by a corner only
    const holds = (i: number, j: number): boolean => (i < 3 && j > 0 && !(i === 2 && j === 2)) || (i === 4 && j === 0);
    const svg = drawn(kept(holds));
    const { d, fill } = areaOf(svg)!.attributes;
    for (const i of [0, 1, 2, 3, 4])
      for (const j of [0, 1, 2, 3, 4]) {
        // nodes on the frame are looked at a hair inside of it
        const x = Math.min(483.9, Math.max(66.1, column(i)));
        const y = Math.min(377.9, Math.max(12.1, row(j)));
        expect(inside(d!, x, y), `${i} ${j}`).toBe(holds(i, j));
      }
    expect(fill).toBe("url(#m-kept)");
    expect(nodesNamed(svg, "pattern").map((n) => n.attributes.id)).toEqual(["m-kept"]);
  });

  it("ends half way to the next node", () => {
    const ring = points(areaOf(drawn(kept((i) => i >= 3)))!.attributes.d!);
    expect(Math.min(...ring.map(([x]) => x))).toBeCloseTo(column(2.5), 3);
  });

  it("reaches to the frame, without an outline along it", () => {
    const svg = drawn(kept((i) => i >= 3));
    const ring = points(areaOf(svg)!.attributes.d!);
    expect(Math.max(...ring.map(([x]) => x))).toBeCloseTo(484, 3);
    expect([Math.min(...ring.map(([, y]) => y)), Math.max(...ring.map(([, y]) => y))]).toEqual([12, 378]);
    const edge = points(nodesNamed(svg, "path").find((n) => n.attributes["stroke-width"] === "4")!.attributes.d!);
    expect(Math.max(...edge.map(([x]) => x))).toBeLessThan(column(3));
    expect(Math.max(...edge.map(([, y]) => y)) - Math.min(...edge.map(([, y]) => y))).toBeCloseTo(366, 0);
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
