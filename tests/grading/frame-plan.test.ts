import {
  findPaper,
  frameExtent,
  frameFor,
  frameIds,
  greyCode,
  labFromSrgb,
  markerCells,
  markerPlace,
  scaled,
} from "#grading";
import { describe, expect, it } from "vitest";

const usual = { width: 150e-3, height: 100e-3 };
const frame = frameFor(usual, { coupon: 1 });

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}
const boxesOf = (f: typeof frame): Box[] => [
  ...f.markers.map((m) => ({ x: m.x, y: m.y, width: m.size, height: m.size })),
  ...f.greys,
  { x: 0, y: 0, width: f.couponWidth, height: f.couponHeight },
];
/** white between two boxes, negative where they overlap */
const between = (a: Box, b: Box): number =>
  Math.max(a.x - b.x - b.width, b.x - a.x - a.width, a.y - b.y - b.height, b.y - a.y - a.height);

describe("frame of a coupon", () => {
  it("has eight markers where the plan says, the usual coupon in millimetres", () => {
    const mm = frame.markers.map((m) => [m.id, ...[m.x, m.y, m.size].map((v) => Number((v * 1e3).toFixed(6)))]);
    expect(mm).toEqual([
      [0, -15, -15, 12],
      [1, 69, -15, 12],
      [2, 153, -15, 12],
      [3, 153, 44, 12],
      [4, 153, 103, 12],
      [5, 69, 103, 12],
      [6, -15, 103, 12],
      [7, -15, 44, 12],
    ]);
    expect(markerPlace(frame, 5)).toBe("middle of the upper side");
    expect(markerPlace(frame, 8)).toBeNull();
  });

  it("shares no marker with the frame of any other coupon", () => {
    const all = Array.from({ length: 31 }, (_, k) => frameIds(k + 1)).flat();
    expect(new Set(all).size).toBe(248);
    expect(Math.max(...all)).toBeLessThan(250);
    expect(() => frameIds(32)).toThrow("invalid coupon: 32 (must be a whole number, 1 to 31)");
  });

  it("keeps white of a marker cell around everything, for every shape of coupon", () => {
    for (const [width, height] of [
      [150, 100],
      [100, 150],
      [20, 20],
      [200, 150],
      [60, 20],
      [21, 250],
    ] as const) {
      const f = frameFor({ width: width / 1e3, height: height / 1e3 }, { coupon: 3 });
      const boxes = boxesOf(f);
      for (const marker of boxes.slice(0, 8))
        for (const other of boxes) if (other !== marker) expect(between(marker, other)).toBeGreaterThan(0.00299);
      for (const grey of f.greys) {
        expect(Math.min(grey.width, grey.height)).toBeGreaterThanOrEqual(4e-3 - 1e-12);
        expect(between(grey, boxes.at(-1)!)).toBeGreaterThan(0.00299);
      }
    }
  });

  it("has two strips of seven steps, evenly from 20 to 95 and against each other", () => {
    expect(frame.greys).toHaveLength(14);
    const [lower, upper] = [frame.greys.slice(0, 7), frame.greys.slice(7)];
    lower.forEach((g, k) => {
      expect(Math.abs(g.lightness - (20 + 12.5 * k))).toBeLessThan(0.25);
      // What is printed is what is said: the code has exactly this lightness.
      const code = greyCode(g.lightness) / 255;
      expect(labFromSrgb(code, code, code).L).toBeCloseTo(g.lightness, 6);
      expect(g.y).toBeLessThan(0);
      expect(upper[k]!.y).toBeGreaterThan(frame.couponHeight);
      expect(upper[k]!.lightness).toBe(g.lightness);
    });
    expect(lower[0]!.x).toBeLessThan(lower[6]!.x);
    expect(upper[0]!.x).toBeGreaterThan(upper[6]!.x);
    expect(frame.greysMeasured).toBe(false);
  });

  it("takes measured steps, and refuses what cannot be a strip", () => {
    const measured = [21, 33, 44, 58, 71, 82, 94];
    const f = frameFor(usual, { coupon: 1, measuredGreys: measured });
    expect(f.greys.map((g) => g.lightness)).toEqual([...measured, ...measured]);
    expect(f.greysMeasured).toBe(true);
    expect(() => frameFor(usual, { coupon: 1, measuredGreys: [1, 2] })).toThrow(
      "invalid grey steps: 2 (must be 7 readings, dark to light)",
    );
    expect(() => frameFor(usual, { coupon: 1, measuredGreys: [21, 33, 32, 58, 71, 82, 94] })).toThrow(
      "invalid lightness of grey step 3: 32 (must be above that of the darker step before it)",
    );
  });

  it("says in one line what does not fit", () => {
    expect(() => frameFor({ width: 0.38, height: 0.3 }, { coupon: 1 })).toThrow(
      /^invalid frame sheet: 416 x 350 mm \(must fit on A4 or A3 at true size with 5 mm left white around\)$/,
    );
    expect(() => frameFor({ width: 0.01, height: 0.3 }, { coupon: 1 })).toThrow(/^invalid coupon width: 10 mm/);
    expect(() => frameFor({ width: Number.NaN, height: 0.3 }, { coupon: 1 })).toThrow(/^invalid coupon width/);
    expect(() => frameFor(usual, { coupon: 1, markerSize: 5e-3 })).toThrow(/^invalid marker size: 5 mm/);
    expect(() => frameFor(usual, { coupon: 1, gap: 1e-3 })).toThrow(/^invalid gap: 1 mm/);
  });

  it("finds the paper, on its side where needed", () => {
    expect(findPaper(0.2, 0.287)).toMatchObject({ name: "a4", width: 0.21 });
    expect(findPaper(0.287, 0.2)).toMatchObject({ name: "a4", width: 0.297 });
    expect(findPaper(0.2001, 0.287)?.name).toBe("a3");
    expect(findPaper(0.2055, 0.269, ["letter", "a3"])?.name).toBe("letter");
    expect(findPaper(0.3, 0.3)).toBeNull();
  });
});

describe("print scale", () => {
  it("moves markers about the middle of the coupon and leaves the coupon as large as it is", () => {
    const small = scaled(frame, 0.98);
    expect(small.couponWidth).toBe(0.15);
    expect(small.markers[0]!.x).toBeCloseTo(0.075 - 0.98 * 0.09, 12);
    expect(small.markers[4]!.y).toBeCloseTo(0.05 + 0.98 * 0.053, 12);
    expect(small.markers[4]!.size).toBeCloseTo(0.01176, 12);
    expect(small.greys[3]!.width).toBeCloseTo(0.98 * frame.greys[3]!.width, 12);
    const ratio = frameExtent(small).width / frameExtent(frame).width;
    expect(ratio).toBeCloseTo(0.98, 12);
  });

  it("refuses a scale that cannot be, and a print that the coupon would cover", () => {
    expect(() => scaled(frame, 0.8)).toThrow("invalid print scale: 0.8 (must be 0.9 to 1.1)");
    expect(() => scaled(frame, 0.94)).toThrow(/the coupon would cover markers: print again at 100 %/);
    expect(() => scaled(frame, Number.NaN)).toThrow(/^invalid print scale/);
  });
});

describe("marker cells", () => {
  it("are the published ones of marker 0, inside a black border", () => {
    const rows = markerCells(0).map((row) => row.map((black) => (black ? "#" : ".")).join(""));
    expect(rows).toEqual(["######", "#.#..#", "##.#.#", "###..#", "###.##", "######"]);
  });

  it("differ in three cells or more in every turn", () => {
    const turn = (m: readonly (readonly boolean[])[]): boolean[][] => m.map((_, r) => m.map((_, c) => m[5 - c]![r]!));
    const words = Array.from({ length: 250 }, (_, id) => {
      let cells = markerCells(id).map((row) => [...row]);
      return [0, 1, 2, 3].map(() => {
        cells = turn(cells);
        return Number.parseInt(
          cells
            .slice(1, 5)
            .map((row) =>
              row
                .slice(1, 5)
                .map((b) => (b ? "0" : "1"))
                .join(""),
            )
            .join(""),
          2,
        );
      });
    });
    const ones = (n: number): number => n.toString(2).replaceAll("0", "").length;
    let least = 16;
    words.forEach((a, i) => {
      for (let j = 0; j < i; j++) for (const b of words[j]!) least = Math.min(least, ones(a[0]! ^ b));
    });
    expect(least).toBe(3);
    expect(() => markerCells(250)).toThrow(/^invalid marker id: 250/);
  });
});

describe("code of a grey", () => {
  it("follows its published points", () => {
    expect([0, 20, 50, 100].map(greyCode)).toEqual([0, 48, 119, 255]);
    expect(() => greyCode(101)).toThrow("invalid lightness: 101 (must be 0 to 100)");
  });
});
