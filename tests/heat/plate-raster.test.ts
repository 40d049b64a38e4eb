import { describe, expect, it } from "vitest";
import { type PulseRaster, pulseTrainRise, rasterBeforePulse } from "#heat";
import { plainLoops } from "#loops";

// Invented raster case; values by direct superposition with plate images (own reference computation in another
// language, checked there against a 60-image sum to 3e-12).
const plate = { conductivity: 40, volumetricHeat: 3.925e6, plateThickness: 5e-3 };
const line = 301 * 20e-6;
const raster: PulseRaster = {
  energy: 1e-3,
  radius: 125e-6,
  pitch: 50e-6,
  lineSpacing: 0.12e-3,
  pulsesPerLine: 301,
  linesPerPass: 126,
  period: 20e-6,
  lineTime: line,
  passTime: 126 * line,
  serpentine: true,
};

function trainOf(r: PulseRaster, count: number) {
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  const time = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const step = i % r.pulsesPerLine;
    const lines = Math.floor(i / r.pulsesPerLine);
    const l = lines % r.linesPerPass;
    x[i] = (r.serpentine && l % 2 === 1 ? r.pulsesPerLine - 1 - step : step) * r.pitch;
    y[i] = l * r.lineSpacing;
    time[i] = Math.floor(lines / r.linesPerPass) * r.passTime + l * r.lineTime + step * r.period;
  }
  return { x, y, time };
}

describe("temperature before each of 100,000 pulses of a raster", () => {
  const rise = rasterBeforePulse(plate, raster, 100_000);
  it.each([
    [1000, 414.185262],
    [50_000, 459.917128],
    [99_999, 449.16207],
    [96_925, 532.31619],
  ])("before pulse %d", (i, value) => {
    expect(Math.abs(rise[i]! - value)).toBeLessThan(5e-6);
  });
  it("is largest before pulse 96925, and nothing before the first", () => {
    expect(rise.indexOf(rise.reduce((a, b) => Math.max(a, b)))).toBe(96_925);
    expect(rise[0]).toBe(0);
  });
});

describe("raster lattice against the direct sum, to 2e-6 of it", () => {
  it.each([
    ["serpentine, turn and jump times, partial last line", { ...raster, pulsesPerLine: 40, linesPerPass: 9 }, 1000],
    ["one way", { ...raster, pulsesPerLine: 40, linesPerPass: 9, serpentine: false }, 800],
    ["an odd number of lines, thin plate", { ...raster, pulsesPerLine: 90, linesPerPass: 5, radius: 400e-6 }, 1301],
    ["lines of one pulse", { ...raster, pulsesPerLine: 1, linesPerPass: 7 }, 30],
    ["one line, over and over", { ...raster, pulsesPerLine: 25, linesPerPass: 1 }, 90],
  ])("%s", (name, shape, count) => {
    const body = name.includes("thin") ? { ...plate, plateThickness: 0.3e-3 } : plate;
    const lineTime = shape.pulsesPerLine * shape.period + 1.3e-4;
    const full = { ...shape, lineTime, passTime: shape.linesPerPass * lineTime + 2.1e-3 };
    const rise = rasterBeforePulse(body, full, count);
    const twin = rasterBeforePulse(body, full, count, plainLoops.plate);
    const train = trainOf(full, count);
    for (let i = 1; i < count; i += 7) {
      const direct = pulseTrainRise(body, full.energy, full.radius, train, train.x[i]!, train.y[i]!, train.time[i]!);
      expect(Math.abs(rise[i]! / direct - 1), `pulse ${i}`).toBeLessThan(2e-6);
      expect(Math.abs(twin[i]! / rise[i]! - 1), `twin at pulse ${i}`).toBeLessThan(1e-12);
    }
  });
  it("refuses lines that take less time than their pulses", () => {
    expect(() => rasterBeforePulse(plate, { ...raster, lineTime: 1e-3 }, 10)).toThrow("invalid line time");
  });
});
