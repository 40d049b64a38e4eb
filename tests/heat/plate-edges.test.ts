import { describe, expect, it } from "vitest";
import { cornerFactor, edgeFactor, edgeStripFactor, pulseTrainRise, wedgeBound } from "#heat";

const plate = { conductivity: 40, volumetricHeat: 4e6, plateThickness: 5e-3 };
const d = 1e-5;
const radius = 0.2e-3;

/** Rise at (x, y) after t from pulses of 1 J at places. */
function rise(places: readonly (readonly [number, number])[], x: number, y: number, age: number): number {
  const train = {
    x: Float64Array.from(places, (p) => p[0]),
    y: Float64Array.from(places, (p) => p[1]),
    time: new Float64Array(places.length),
  };
  return pulseTrainRise(plate, 1, radius, train, x, y, age);
}

describe("edges and corners", () => {
  it.each([
    [0, 0.01],
    [0.3e-3, 0.01],
    [1e-3, 0.05],
  ])("edge at %d m after %d s: pulse and image against the pulse alone", (distance, age) => {
    const exact =
      rise(
        [
          [distance, 0],
          [-distance, 0],
        ],
        distance,
        0,
        age,
      ) / rise([[distance, 0]], distance, 0, age);
    expect(Math.abs(edgeFactor(distance, radius, d, age) / exact - 1)).toBeLessThan(1e-12);
  });

  it("corner: three images", () => {
    const [a, b, age] = [0.4e-3, 0.7e-3, 0.02];
    const images = [1, -1].flatMap((i) => [1, -1].map((j) => [i * a, j * b] as const));
    const exact = rise(images, a, b, age) / rise([[a, b]], a, b, age);
    expect(Math.abs(cornerFactor(a, b, radius, d, age) / exact - 1)).toBeLessThan(1e-12);
    expect(cornerFactor(0, 0, radius, d, age)).toBe(4);
  });

  it("strip of heat along an edge: rows of pulses and their images", () => {
    const [breadth, age, distance] = [2e-3, 0.03, 0.5e-3];
    const rows = Array.from({ length: 400 }, (_, i) => ((i + 0.5) / 400) * breadth);
    const inside = rise(
      rows.map((x) => [x, 0] as const),
      distance,
      0,
      age,
    );
    const image = rise(
      rows.map((x) => [-x, 0] as const),
      distance,
      0,
      age,
    );
    expect(Math.abs(edgeStripFactor(distance, breadth, radius, d, age) / (1 + image / inside) - 1)).toBeLessThan(1e-5);
    expect(() => edgeStripFactor(3e-3, breadth, radius, d, age)).toThrow("invalid distance");
  });

  it("wedge: a sharp edge doubles, an inner corner takes off a third, a flat is a flat", () => {
    expect(wedgeBound(Math.PI / 2)).toEqual({ low: 1, high: 2 });
    expect(wedgeBound(Math.PI)).toEqual({ low: 1, high: 1 });
    expect(wedgeBound(1.5 * Math.PI).low).toBeCloseTo(2 / 3, 12);
    expect(() => wedgeBound(7)).toThrow("invalid angle: 7 rad (must be 0.785 to 6.283 rad)");
  });
});
