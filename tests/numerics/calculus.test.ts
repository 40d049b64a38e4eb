import { describe, expect, it } from "vitest";
import {
  findInterval,
  findRoot,
  gaussLegendre,
  integrate,
  integrateWithError,
  interpolateLinear,
  minimise1d,
  monotoneCubic,
  NumericalError,
} from "#numerics";

/** The function with a count of its calls. */
function counted(f: (x: number) => number): { f: (x: number) => number; calls: () => number } {
  let calls = 0;
  return {
    f: (x) => {
      calls += 1;
      return f(x);
    },
    calls: () => calls,
  };
}

describe("integration", () => {
  it("asks for a relative error: the scale of f does not change the work", () => {
    const large = integrateWithError((x) => 1e8 * Math.sqrt(x), 0, 1);
    const little = integrateWithError((x) => 1e-8 * Math.sqrt(x), 0, 1);
    expect(little.evaluations).toBe(large.evaluations);
  });

  it("is exact for polynomials up to degree 22 in one step", () => {
    for (let degree = 0; degree <= 22; degree += 1) {
      const { value, evaluations } = integrateWithError((x) => x ** degree, 0, 2, { absolute: 1e9 });
      expect(evaluations).toBe(15);
      expect(value / (2 ** (degree + 1) / (degree + 1))).toBeCloseTo(1, 13);
    }
  });

  it.each([
    ["√x", (x: number) => Math.sqrt(x), 0, 1, 2 / 3],
    ["ln x", (x: number) => Math.log(x), 0, 1, -1],
    ["a narrow peak", (x: number) => 1 / (1e-6 + (x - 0.3) ** 2), -1, 1, 1000 * (Math.atan(700) + Math.atan(1300))],
    ["a decay to infinity", (x: number) => Math.exp(-x * x), 0, Infinity, Math.sqrt(Math.PI) / 2],
    ["backwards", (x: number) => Math.cos(x), 1, 0, -Math.sin(1)],
    ["an odd function", (x: number) => x ** 3, -1, 1, 0],
  ])("of %s", (_name, f, low, high, exact) => {
    const { value, error } = integrateWithError(f, low, high);
    expect(Math.abs(value - exact)).toBeLessThanOrEqual(1e-9 * Math.max(Math.abs(exact), 1));
    expect(Math.abs(value - exact)).toBeLessThanOrEqual(error + 1e-12 * Math.max(Math.abs(exact), 1));
    expect(integrate(f, low, high)).toBe(value);
  });

  it("gives up aloud", () => {
    expect(() => integrate((x) => 1 / x, 0, 1)).toThrow(/no convergence/);
    expect(() => integrate((x) => Math.abs(x - 1 / 3), 0, 1, { relative: 1e-14, maxDepth: 3 })).toThrow(
      /no convergence/,
    );
    expect(() => integrate(() => Number.NaN, 0, 1)).toThrow(/not finite/);
    expect(() => integrate((x) => x, Number.NaN, 1)).toThrow(NumericalError);
  });

  it.each([1, 2, 5, 16, 64])("by Gauss-Legendre with %d nodes is exact to degree 2n − 1", (n) => {
    const { nodes, weights } = gaussLegendre(n);
    for (const degree of [0, 1, 2 * n - 2, 2 * n - 1]) {
      const sum = weights.reduce((total, w, i) => total + w * nodes[i]! ** degree, 0);
      expect(sum).toBeCloseTo(degree % 2 === 0 ? 2 / (degree + 1) : 0, 13);
    }
    const next = weights.reduce((total, w, i) => total + w * nodes[i]! ** (2 * n), 0);
    if (n <= 5) expect(Math.abs(next - 2 / (2 * n + 1))).toBeGreaterThan(1e-4);
    expect([...nodes]).toEqual([...nodes].sort((a, b) => a - b));
  });
});

describe("roots", () => {
  it.each([
    [(x: number) => Math.cos(x) - x, 0, 1, 0.7390851332151607],
    [(x: number) => x ** 3 - 2, 0, 5, Math.cbrt(2)],
    [(x: number) => Math.exp(x) - 1e-8, -50, 50, Math.log(1e-8)],
    [(x: number) => (x - 1) ** 9, -3, 2.5, 1],
    [(x: number) => x, 0, 1, 0],
    [(x: number) => x - 1, 0, 1, 1],
    [(x: number) => (x > Math.SQRT2 ? 1 : -1), 0, 2, Math.SQRT2],
  ])("of function %#", (f, low, high, exact) => {
    expect(Math.abs(findRoot(f, low, high) - exact)).toBeLessThan(1e-14 * Math.max(1, Math.abs(exact)));
    expect(Math.abs(findRoot(f, high, low, { tolerance: 1e-6 }) - exact)).toBeLessThan(1e-6);
  });

  /** Calls counted on the published method; bisection alone would take about 50. */
  it.each([
    [(x: number) => Math.cos(x) - x, 0, 1, 9],
    [(x: number) => x ** 3 - 2, 0, 5, 13],
    [(x: number) => Math.exp(x) - 1e-8, -50, 50, 18],
    [(x: number) => Math.exp(x) - 5, 0, 4, 11],
  ])("are found in few calls %#", (f, low, high, most) => {
    const watched = counted(f);
    findRoot(watched.f, low, high);
    expect(watched.calls()).toBeLessThanOrEqual(most);
  });

  it("are refused without a change of sign", () => {
    expect(() => findRoot((x) => x * x + 1, -1, 1)).toThrow(/no change of sign/);
    expect(() => findRoot(() => Number.NaN, -1, 1)).toThrow(NumericalError);
    expect(() => findRoot((x) => Math.cos(x) - x, 0, 1, { maxIterations: 2 })).toThrow(/no convergence/);
  });
});

describe("minima", () => {
  it.each([
    [(x: number) => (x - 2) ** 2 + 1, -10, 10, 2, 1],
    [Math.cos, 0, 6, Math.PI, -1],
    [(x: number) => x - Math.log(x), 1e-9, 20, 1, 1],
    [(x: number) => Math.abs(x - 0.3), -1, 1, 0.3, 0],
    [(x: number) => (x < 1 ? Number.NaN : x), 0, 4, 1, 1],
    [(x: number) => x, 2, 3, 2, 2],
  ])("of function %#", (f, low, high, x, value) => {
    const found = minimise1d(f, low, high);
    expect(Math.abs(found.x - x)).toBeLessThan(1e-6);
    expect(Math.abs(found.value - value)).toBeLessThan(1e-6);
    expect(f(found.x)).toBe(found.value);
  });

  it.each([
    [Math.cos, 0, 6, 9],
    [(x: number) => x - Math.log(x), 1e-9, 20, 18],
    [(x: number) => (x - 2) ** 4 + x * x, -10, 10, 17],
  ])("are found in few calls %#", (f, low, high, most) => {
    const watched = counted(f);
    minimise1d(watched.f, low, high);
    expect(watched.calls()).toBeLessThanOrEqual(most);
  });

  it("are refused for an empty range", () => {
    expect(() => minimise1d(Math.cos, 1, 1)).toThrow(NumericalError);
  });
});

describe("interpolation", () => {
  const xs = Float64Array.of(0, 1, 2, 4, 7);
  const ys = [0, 1, 1, 5, 6];

  it("by straight lines, held at the ends", () => {
    expect([-1, 0, 0.25, 1, 1.5, 3, 5.5, 7, 99].map((x) => interpolateLinear(xs, ys, x))).toEqual([
      0, 0, 0.25, 1, 1, 3, 5.5, 6, 6,
    ]);
    expect(interpolateLinear([3], [8], 100)).toBe(8);
    expect([-1, 0, 0.5, 1, 6.9, 7, 8].map((x) => findInterval(xs, x))).toEqual([0, 0, 0, 1, 3, 3, 3]);
  });

  it("by monotone cubics (values from SciPy's PchipInterpolator)", () => {
    const f = monotoneCubic(xs, ys);
    const expected = [0.43649999999999994, 1, 1.56875, 2.85, 5.725];
    [0.3, 1.5, 2.5, 3, 5.5].forEach((x, i) => {
      expect(f(x)).toBeCloseTo(expected[i]!, 14);
    });
    expect([f(-5), f(0), f(2), f(7), f(9)]).toEqual([0, 0, 1, 6, 6]);
    let before = 0;
    for (let x = 0; x <= 7; x += 0.01) {
      expect(f(x)).toBeGreaterThanOrEqual(before - 1e-15);
      before = f(x);
    }
    expect(monotoneCubic([0, 2], [1, 5])(0.5)).toBeCloseTo(2, 15);
  });

  it.each([
    [
      [0, 3, 4, 4.5],
      [0.874320652173913, 2.3729619565217392, 3.6138443935926774, 4.2261513157894735, 4.471217105263158],
    ],
    [
      [0, 3, 2, 4.5],
      [1.359375, 2.828125, 2.5, 2.0390625, 3.0546875],
    ],
  ])("by monotone cubics with unequal end steps (SciPy) %#", (heights, expected) => {
    const f = monotoneCubic([0, 2, 3, 7], heights);
    [0.5, 1.5, 2.5, 4, 6].forEach((x, i) => {
      expect(f(x)).toBeCloseTo(expected[i]!, 13);
    });
  });

  it("refuses points that do not ascend", () => {
    expect(() => monotoneCubic([0, 1, 1], [0, 1, 2])).toThrow(NumericalError);
    expect(() => monotoneCubic([0], [0])).toThrow(NumericalError);
  });
});
