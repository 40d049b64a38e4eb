import {
  handRate,
  orderHours,
  type Range,
  scanRate,
  type ScanTask,
  sensitivity,
  spreadNote,
  spreadOf,
  type Stated,
  statedQuantile,
} from "#cost";
import fc from "fast-check";
import { describe, expect, it } from "vitest";

const fixed = (value: number): Stated => ({ low: value, middle: value, high: value });

describe("a stated figure", () => {
  it("meets its three points, keeps a lopsided spread and never passes its end", () => {
    const stated = { low: 2, middle: 5, high: 30 };
    expect([0.05, 0.5, 0.95].map((p) => statedQuantile(stated, p))).toEqual([
      expect.closeTo(2, 12),
      5,
      expect.closeTo(30, 12),
    ]);
    // Half way down in z: 5·(2/5)^0.5.
    expect(statedQuantile(stated, 0.205416)).toBeCloseTo(5 * Math.sqrt(0.4), 4);
    expect(statedQuantile({ low: 0.5, middle: 0.7, high: 0.9, atMost: 1 }, 0.9999)).toBe(1);
    expect(statedQuantile(fixed(0), 0.3)).toBe(0);
  });

  it("refuses what is no spread in one line", () => {
    const of = (low: number, middle: number, high: number) => () => statedQuantile({ low, middle, high }, 0.5);
    expect(of(3, 2, 4)).toThrow("invalid low end of figure: 3 (must not be above the middle)");
    expect(of(1, 2, 1.5)).toThrow("invalid high end of figure: 1.5 (must not be below the middle)");
    expect(of(0, 2, 3)).toThrow("invalid low end of figure: 0 (must be above 0 where the figure has a spread)");
    expect(of(-1, 2, 3)).toThrow("invalid low end of figure: -1 (must be 0 or above)");
    expect(of(1, Number.NaN, 3)).toThrow("invalid figure: not a number (must be a finite number)");
    expect(() => statedQuantile({ low: 0.5, middle: 0.9, high: 1.2, atMost: 1 }, 0.5)).toThrow(
      "invalid high end of figure: 1.2 (must be 1 at most)",
    );
  });
});

describe("spread of a result", () => {
  it("a product of lognormals is lognormal: ln widths add as squares (exact)", () => {
    for (const count of [3, 12]) {
      const spreads = Array.from({ length: count }, (_, i) => [`f${i}`, 1.1 + 0.3 * ((i * 7) % 5)] as const);
      const figures = Object.fromEntries(spreads.map(([name, g]) => [name, { low: 2 / g, middle: 2, high: 2 * g }]));
      const width = Math.hypot(...spreads.map(([, g]) => Math.log(g)));
      // Every other figure divides, so that the two ends are met from both sides.
      const ln = (v: Readonly<Record<string, number>>) =>
        spreads.reduce((sum, [name], i) => sum + (i % 2 === 0 ? 1 : -1) * Math.log(v[name]! / 2), 0);
      const spread = spreadOf(figures, (v) => Math.exp(ln(v)));
      const off = [Math.log(spread.low) + width, Math.log(spread.middle), Math.log(spread.high) - width];
      for (const error of off) expect(Math.abs(error) / (2 * width)).toBeLessThan(0.01);
      expect(spread.note).toBe(spreadNote);
    }
  });

  it("of one figure through a rising function is that function of its points", () => {
    const spread = spreadOf({ a: { low: 1, middle: 3, high: 5 } }, (v) => v.a ** 2);
    // Between two neighbouring points the quantile is drawn straight.
    expect(spread.low).toBeCloseTo(1, 3);
    expect(spread.middle).toBeCloseTo(9, 10);
    expect(spread.high).toBeCloseTo(25, 2);
  });

  it("two equal times that vary apart spread less than one that varies alone", () => {
    const each = { low: 5, middle: 10, high: 20 };
    const two = spreadOf({ a: each, b: each }, (v) => v.a + v.b);
    const one = spreadOf({ a: each }, (v) => 2 * v.a);
    expect(two.high - two.low).toBeLessThan(0.85 * (one.high - one.low));
    expect(two.high - two.low).toBeGreaterThan(0.6 * (one.high - one.low));
  });

  it("is one number without spreads, and says so where the result is none", () => {
    expect(spreadOf({ a: fixed(4) }, (v) => v.a / 2)).toMatchObject({ low: 2, middle: 2, high: 2 });
    expect(() => spreadOf({ a: fixed(0) }, (v) => 1 / v.a)).toThrow("invalid result: infinite");
  });
});

describe("hours for an order", () => {
  const task: ScanTask = {
    width: 0.1,
    height: 0.1,
    count: 100,
    speed: 5,
    lineSpacing: 1e-4,
    passes: 2,
    fieldSide: 0.1,
    turnRound: { acceleration: 1e4, speedMax: 10 },
    handling: 60,
    preparation: 1800,
  };

  it("stand inside their spread, which grows with the spreads stated", () => {
    const at = scanRate(task).hours;
    const narrow = orderHours(scanRate, task, { handling: { low: 50, high: 75 } });
    const wide = orderHours(scanRate, task, { handling: { low: 30, high: 150 }, speed: { low: 4, high: 6 } });
    for (const spread of [narrow, wide]) {
      expect(spread.low).toBeLessThan(at);
      expect(spread.high).toBeGreaterThan(at);
    }
    // Handling alone, 15 s more on 100 parts.
    expect(narrow.high - at).toBeCloseTo((15 * 100) / 3600, 4);
    expect(wide.high - wide.low).toBeGreaterThan(narrow.high - narrow.low);
    expect(orderHours(scanRate, task, {})).toMatchObject({ low: at, middle: at, high: at });
  });

  it("keep shares at or below 1", () => {
    const hand = {
      area: 1,
      count: 1,
      lineWidth: 0.05,
      handSpeed: 0.1,
      passes: 1,
      strokeOverlap: 0.1,
      beamOnShare: 0.8,
      pauseShare: 0.1,
    };
    const spread = orderHours(handRate, hand, { beamOnShare: { low: 0.5, high: 0.99 } });
    expect(spread.low).toBeCloseTo((handRate(hand).hours * 0.8) / 0.99, 2);
    expect(() => orderHours(handRate, hand, { beamOnShare: { low: 0.9, high: 0.99 } })).toThrow(
      "invalid low end of beamOnShare: 0.9 (must not be above the middle)",
    );
  });

  it("give the same answer every time", () => {
    const range = fc.double({ min: 1.05, max: 4, noNaN: true });
    fc.assert(
      fc.property(range, range, (down, up) => {
        const handling: Range = { low: 60 / down, high: 60 * up };
        const first = orderHours(scanRate, task, { handling });
        expect(orderHours(scanRate, task, { handling })).toEqual(first);
        expect(first.low).toBeLessThan(first.middle);
        expect(first.middle).toBeLessThan(first.high);
      }),
      { numRuns: 15 },
    );
  });
});

describe("one figure at a time", () => {
  it("moves one and leaves the others, largest swing first", () => {
    const figures = {
      small: { low: 9, middle: 10, high: 12 },
      fixed: fixed(7),
      large: { low: 1, middle: 2, high: 8 },
    };
    const found = sensitivity(figures, (v) => v.small + v.fixed - 3 * v.large);
    expect(found.middle).toBe(11);
    expect(found.rows).toEqual([
      { name: "large", low: 1, high: 8, resultAtLow: 14, resultAtHigh: -7, swing: 21 },
      { name: "small", low: 9, high: 12, resultAtLow: 10, resultAtHigh: 13, swing: 3 },
    ]);
  });
});
