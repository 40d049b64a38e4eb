import { describe, expect, it } from "vitest";
import {
  couponCapacity,
  farthestPoint,
  fullFactorial,
  latinHypercube,
  layoutCoupon,
  patchesAlong,
  sobolDesign,
} from "#trial";

describe("designs", () => {
  it("full factorial in standard order", () => {
    expect(fullFactorial([2, 2, 2])).toEqual([
      [0, 0, 0],
      [1, 0, 0],
      [0, 1, 0],
      [1, 1, 0],
      [0, 0, 1],
      [1, 0, 1],
      [0, 1, 1],
      [1, 1, 1],
    ]);
    expect(fullFactorial([3, 2]).length).toBe(6);
    expect(fullFactorial([3, 2])[4]).toEqual([1, 1]);
    expect(() => fullFactorial([])).toThrow("invalid levels");
    expect(() => fullFactorial([100, 100, 100])).toThrow("invalid levels: 1000000 runs");
    expect(() => fullFactorial([2, 0])).toThrow("invalid levels of factor 2: 0");
  });

  it("latin hypercube has one point in every stratum of every column", () => {
    const points = latinHypercube(17, 4, 5);
    for (let k = 0; k < 4; k++) {
      const strata = points.map((p) => Math.floor(p[k]! * 17)).sort((a, b) => a - b);
      expect(strata).toEqual(Array.from({ length: 17 }, (_, i) => i));
    }
    expect(latinHypercube(17, 4, 5)).toEqual(points);
    expect(latinHypercube(17, 4, 6)).not.toEqual(points);
  });

  it("a scrambled Sobol block of 64 has one point in every cell of the 8 × 8 board of two neighbouring columns", () => {
    const points = sobolDesign(64, 2, 3);
    const cells = new Set(points.map(([x, y]) => 8 * Math.floor(8 * x!) + Math.floor(8 * y!)));
    expect(cells.size).toBe(64);
    expect(sobolDesign(32, 2, 3, 32)).toEqual(points.slice(32));
  });

  it("the farthest point is the one a search over all pairs finds", () => {
    const points = [[0], [0.1], [0.5], [0.9], [1]];
    expect(farthestPoint(points, [[0], [1]], () => true)).toBe(2);
    expect(farthestPoint(points, [[0]], (i) => i !== 4)).toBe(3);
    expect(farthestPoint(points, [], () => true)).toBe(0);
    expect(farthestPoint(points, [], () => false)).toBe(-1);
  });
});

describe("coupon layout", () => {
  const patch = { width: 15e-3, height: 15e-3 };
  const coupon = { width: 150e-3, height: 100e-3, rim: 10e-3, gap: 5e-3 };

  it("counts along a side: (150 − 20 + 5)/20 gives 6, a side that fits exactly counts in full", () => {
    expect(patchesAlong(150e-3, 15e-3, 10e-3, 5e-3)).toBe(6);
    expect(patchesAlong(0.135, 0.015, 0.01, 0.005)).toBe(6);
    expect(patchesAlong(0.1349, 0.015, 0.01, 0.005)).toBe(5);
    expect(couponCapacity(patch, coupon)).toEqual({ columns: 6, rows: 4 });
  });

  it("keeps rim and gap for every patch and shares patches evenly", () => {
    const { coupons, slots } = layoutCoupon({ patch, coupon, count: 50 });
    expect(coupons.length).toBe(3);
    expect([1, 2, 3].map((c) => slots.filter((s) => s.coupon === c).length)).toEqual([17, 17, 16]);
    const slack = 1e-12;
    slots.forEach((a, i) => {
      expect(a.x).toBeGreaterThanOrEqual(coupon.rim - slack);
      expect(a.y).toBeGreaterThanOrEqual(coupon.rim - slack);
      expect(a.x + patch.width).toBeLessThanOrEqual(coupon.width - coupon.rim + slack);
      expect(a.y + patch.height).toBeLessThanOrEqual(coupon.height - coupon.rim + slack);
      for (const b of slots.slice(i + 1)) {
        if (a.coupon !== b.coupon) continue;
        const apart = Math.max(Math.abs(a.x - b.x) - patch.width, Math.abs(a.y - b.y) - patch.height);
        expect(apart).toBeGreaterThanOrEqual(coupon.gap - slack);
      }
    });
    // the block stands in the middle of the coupon
    const right = Math.max(...slots.map((s) => s.x)) + patch.width;
    expect(Math.min(...slots.map((s) => s.x))).toBeCloseTo(coupon.width - right, 12);
    // first slot in the upper left
    expect(slots[0]!.x).toBe(Math.min(...slots.map((s) => s.x)));
    expect(slots[0]!.y).toBe(Math.max(...slots.map((s) => s.y)));
  });

  it("takes any patch size, and refuses one that does not fit in one clear line", () => {
    const tall = layoutCoupon({ patch: { width: 40e-3, height: 60e-3 }, coupon, count: 2 });
    expect(tall.coupons.length).toBe(1);
    expect(() => layoutCoupon({ patch: { width: 0.14, height: 0.015 }, coupon, count: 1 })).toThrow(
      "invalid patch width: 140 mm (at most 130 mm on a coupon of 150 mm with a rim of 10 mm)",
    );
    expect(() => layoutCoupon({ patch: { width: 0.015, height: 0.2 }, coupon, count: 1 })).toThrow(
      "invalid patch height: 200 mm",
    );
    expect(() => layoutCoupon({ patch: { width: -1, height: 0.02 }, coupon, count: 1 })).toThrow(
      "invalid patch side: -1 m",
    );
    expect(() => layoutCoupon({ patch, coupon, count: 5000 })).toThrow("invalid count: 5000 patches");
  });
});
