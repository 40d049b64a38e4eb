import { describe, expect, it } from "vitest";
import { type CouponPlan, frameFor, type PlateMap } from "#grading";
import { inPicture, marginOf, scaleAt } from "../../src/grading/coupon/patch-in-picture.ts";

/** 10 px/mm, upright: 100 × 80 mm of the plate fill the picture. */
const map: PlateMap = {
  toPixel: (x, y) => ({ u: 1e4 * x, v: 800 - 1e4 * y }),
  toPlate: (u, v) => ({ x: u / 1e4, y: (800 - v) / 1e4 }),
};
const photo = { width: 1000, height: 800 };
const at = (x: number, y: number) => ({ x, y, width: 10e-3, height: 10e-3 });

describe("a patch in a picture", () => {
  it("lies wholly in it with its margin, or counts as out, on each of the four sides", () => {
    expect(inPicture(map, at(45e-3, 35e-3), 2e-3, photo)).toBe(true);
    for (const [x, y] of [
      [1e-3, 35e-3],
      [89e-3, 35e-3],
      [45e-3, 1e-3],
      [45e-3, 69e-3],
    ] as const) {
      expect(inPicture(map, at(x, y), 0.9e-3, photo), `${x} ${y}`).toBe(true);
      expect(inPicture(map, at(x, y), 1.1e-3, photo), `${x} ${y}`).toBe(false);
    }
  });

  it("has the scale of the picture where it lies", () => {
    expect(scaleAt(map, at(20e-3, 20e-3))).toBeCloseTo(10, 6);
  });

  it("has a margin that reaches neither its neighbour's outline nor the edge of the coupon", () => {
    const frame = frameFor({ width: 100e-3, height: 80e-3 }, { coupon: 1 });
    const patch = (n: number, x: number) => ({ ...at(x, 30e-3), patch: n, role: "test" as const, lineSpacing: null });
    const plan = (gap: number): CouponPlan => ({
      coupon: 1,
      label: "1",
      frame,
      patches: [patch(1, 20e-3), patch(2, 30e-3 + gap)],
    });
    expect(marginOf(plan(5e-3).patches[0]!, plan(5e-3))).toBeCloseTo(1.8e-3, 9);
    expect(marginOf(plan(1.6e-3).patches[0]!, plan(1.6e-3))).toBeCloseTo(1.2e-3, 9);
    expect(marginOf(plan(1e-3).patches[0]!, plan(1e-3))).toBe(0);
    const edge = { ...plan(5e-3), patches: [patch(1, 1e-3)] };
    expect(marginOf(edge.patches[0]!, edge)).toBeCloseTo(1e-3, 9);
  });
});
