import { describe, expect, it } from "vitest";
import { drawProperty, propertyQuantile } from "#library";
import type { Distribution, Property } from "#terms";

const property = (distribution: Distribution, low: number, value: number, high: number): Property => ({
  value,
  low,
  high,
  distribution,
  unit: "1",
  validRange: "test",
  source: "memory-metals",
  fromMemory: true,
});

describe("propertyQuantile", () => {
  it.each(["normal", "lognormal", "uniform"] as const)("%s meets its three points, evenly spread or not", (kind) => {
    for (const [low, value, high] of [
      [8, 10, 12],
      [2, 3, 11],
    ] as const) {
      const p = property(kind, low, value, high);
      expect(propertyQuantile(p, 0.05)).toBeCloseTo(low, 12);
      expect(propertyQuantile(p, 0.5)).toBeCloseTo(value, 12);
      expect(propertyQuantile(p, 0.95)).toBeCloseTo(high, 12);
    }
  });

  it("follows each shape between the points", () => {
    // standard normal quantiles: 0.8413447461 at 1, 0.95 at 1.6448536270
    expect(propertyQuantile(property("normal", 8, 10, 12), 0.8413447460685429)).toBeCloseTo(
      10 + 2 / 1.6448536269514722,
      9,
    );
    expect(propertyQuantile(property("lognormal", 5, 10, 20), 0.8413447460685429)).toBeCloseTo(
      10 * 2 ** (1 / 1.6448536269514722),
      9,
    );
    expect(propertyQuantile(property("uniform", 1, 10, 19), 0.725)).toBeCloseTo(14.5, 12);
    expect(propertyQuantile(property("fixed", 3, 3, 3), 0.99)).toBe(3);
  });

  it("keeps to what is possible", () => {
    expect(drawProperty(property("normal", 0.1, 5, 9.9), 0.0011)).toBeCloseTo(0.005, 12);
    expect(drawProperty(property("normal", 0.5, 0.9, 0.99), 0.9999, "share")).toBe(0.999);
    expect(drawProperty(property("normal", -5, 1, 7), 0.01, "signed")).toBeLessThan(-5);
    expect(propertyQuantile(property("normal", 8, 10, 12), 1)).toBe(
      propertyQuantile(property("normal", 8, 10, 12), 0.999),
    );
  });
});
