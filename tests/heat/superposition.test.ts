import { describe, expect, it } from "vitest";
import { pathRise, plateDepthRise, pulseTrainRise } from "#heat";

// Invented raster cases; values by adaptive quadrature in √age and by direct superposition with plate images
// (own reference computation in another language, checked there against a 60-image sum).
const plate = { conductivity: 40, volumetricHeat: 3.925e6, plateThickness: 5e-3 };
const lineTime = 15e-3 / 4;
const lines = Array.from({ length: 120 }, (_, i) => ({
  startTime: i * lineTime,
  endTime: (i + 1) * lineTime,
  fromX: i % 2 === 0 ? 0 : 15e-3,
  toX: i % 2 === 0 ? 15e-3 : 0,
  fromY: i * 0.12e-3,
  toY: i * 0.12e-3,
}));

function riseAfter(count: number, x: number, y: number, z: number): number {
  return pathRise(plate, 300, 150e-6, lines.slice(0, count), { x, y, z }, count * lineTime);
}

describe("moving beam on a plate", () => {
  it.each([
    [14.8e-3, 0, 0, 2533.246914],
    [14.5e-3, 0, 40e-6, 970.430931],
    [14e-3, 0.1e-3, 0, 516.699566],
    [10e-3, 0, 0.1e-3, 177.543003],
  ])("one line, at (%d, %d, %d)", (x, y, z, rise) => {
    expect(Math.abs(riseAfter(1, x, y, z) - rise)).toBeLessThan(1e-5);
  });
  it.each([
    [0.5e-3, 14.2e-3, 0, 1043.219791],
    [7.5e-3, 14.28e-3, 50e-6, 301.121821],
    [7.5e-3, 7.5e-3, 0, 59.802478],
    [3e-3, 12e-3, 5e-3, 0.853901],
  ])("120 serpentine lines, at (%d, %d, %d)", (x, y, z, rise) => {
    expect(Math.abs(riseAfter(120, x, y, z) - rise)).toBeLessThan(1e-5);
  });
  it("counts only what has been written by then", () => {
    const place = { x: 7e-3, y: 0, z: 0 };
    expect(pathRise(plate, 300, 150e-6, lines, place, lineTime)).toBe(riseAfter(1, 7e-3, 0, 0));
    expect(pathRise(plate, 300, 150e-6, lines, place, 0)).toBe(0);
  });
  it("refuses a place outside the plate", () => {
    expect(() => riseAfter(1, 0, 0, 6e-3)).toThrow("invalid depth: 0.006 m (must be 0 to 0.005 m)");
  });
});

describe("100,000 pulses on a plate", () => {
  const count = 100_000;
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  const time = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const line = Math.floor(i / 301) % 126;
    const step = i % 301;
    x[i] = (line % 2 === 0 ? step : 300 - step) * 50e-6;
    y[i] = line * 0.12e-3;
    time[i] = i * 20e-6;
  }
  it.each([
    [1000, 414.185262],
    [50_000, 459.917128],
    [99_999, 449.16207],
    [96_925, 532.31619],
  ])("rise just before pulse %d at its own spot", (i, rise) => {
    const got = pulseTrainRise(plate, 1e-3, 125e-6, { x, y, time }, x[i]!, y[i]!, time[i]!);
    expect(Math.abs(got - rise)).toBeLessThan(1e-5);
  });
});

describe("plane of heat in a plate", () => {
  it("is the same by images and by modes where they meet", () => {
    const meet = (0.15 * plate.plateThickness ** 2 * plate.volumetricHeat) / plate.conductivity;
    for (const z of [0, 2e-3, 5e-3]) {
      const young = plateDepthRise(plate, z, meet * (1 - 1e-12));
      expect(Math.abs(young / plateDepthRise(plate, z, meet * (1 + 1e-12)) - 1)).toBeLessThan(1e-10);
    }
  });
  it("keeps its heat: the mean over the depth is 1/(ρc·h) at any age", () => {
    for (const age of [1e-3, 0.1, 0.5, 10]) {
      let mean = 0;
      for (let i = 0; i < 2000; i++) mean += plateDepthRise(plate, ((i + 0.5) / 2000) * 5e-3, age) / 2000;
      expect(mean * plate.volumetricHeat * plate.plateThickness).toBeCloseTo(1, 6);
    }
  });
});
