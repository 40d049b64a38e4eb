import { describe, expect, it } from "vitest";
import { type PulseRaster, pulseTrainRise, rasterMap } from "#heat";
import { plainLoops } from "#loops";

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
const centres = (n: number, side: number) => Float64Array.from({ length: n }, (_, i) => ((i + 0.5) * side) / n);

describe("surface map after 100,000 pulses of a raster", () => {
  // Invented raster case; values by direct superposition with plate images (own reference computation in another
  // language, checked there against a 60-image sum to 3e-12).
  const places = { x: centres(64, 15e-3), y: centres(64, 15e-3) };
  const map = rasterMap(plate, raster, 100_000, 2, places);
  it("largest and mean rise to 0.1 K", () => {
    expect(map.length).toBe(4096);
    expect(Math.abs(map.reduce((a, b) => Math.max(a, b)) - 250.834194)).toBeLessThan(0.1);
    expect(Math.abs(map.reduce((a, b) => a + b) / 4096 - 21.711238)).toBeLessThan(0.05);
  });
  it("the plain twin gives the same", () => {
    const twin = rasterMap(plate, raster, 100_000, 2, places, undefined, undefined, plainLoops.plate);
    for (let i = 0; i < map.length; i += 13) expect(Math.abs(twin[i]! - map[i]!)).toBeLessThan(1e-10);
  });
});

/** The pulses of a raster and their images in insulated edges, in the order of time. */
function imaged(r: PulseRaster, count: number, width: number | null) {
  const events: [number, number, number][] = [];
  for (let i = 0; i < count; i++) {
    const lines = Math.floor(i / r.pulsesPerLine);
    const l = lines % r.linesPerPass;
    const step = i % r.pulsesPerLine;
    const x = (r.serpentine && l % 2 === 1 ? r.pulsesPerLine - 1 - step : step) * r.pitch;
    const time = Math.floor(lines / r.linesPerPass) * r.passTime + l * r.lineTime + step * r.period;
    for (let k = width ? -8 : 0; k <= (width ? 8 : 0); k++) {
      for (const centre of width ? [x, -x] : [x]) events.push([centre + 2 * k * (width ?? 0), l * r.lineSpacing, time]);
    }
  }
  const column = (k: 0 | 1 | 2) => Float64Array.from(events, (e) => e[k]);
  return { x: column(0), y: column(1), time: column(2) };
}

describe("raster map against the direct sum, to 1e-3 of the largest rise", () => {
  it.each([
    ["serpentine, part of a line, many passes", { ...raster, pulsesPerLine: 20, linesPerPass: 8 }, 5013, null],
    ["one way", { ...raster, pulsesPerLine: 31, linesPerPass: 5, serpentine: false }, 1500, null],
    ["insulated edges close by", { ...raster, pulsesPerLine: 20, linesPerPass: 4 }, 700, 1.1e-3],
  ] as const)("%s", (_, shape, count, width) => {
    const lineTime = shape.pulsesPerLine * shape.period + 1.3e-4;
    const full = { ...shape, lineTime, passTime: shape.linesPerPass * lineTime + 2e-3 };
    const train = imaged(full, count, width);
    const time = train.time[train.time.length - 1]! + full.period;
    const places = { x: centres(11, 1.1e-3), y: centres(5, 1e-3) };
    const map = rasterMap(plate, full, count, time, places, { x: width ? { low: 0, high: width } : null, y: null });
    const direct = Array.from(map, (_rise, k) =>
      pulseTrainRise(plate, 1e-3, full.radius, train, places.x[k % 11]!, places.y[Math.floor(k / 11)]!, time),
    );
    const largest = Math.max(...direct);
    expect(map.length).toBe(55);
    for (const [k, value] of direct.entries()) expect(Math.abs(map[k]! - value)).toBeLessThan(1e-3 * largest);
  });
  it("refuses a time before the last pulse and an edge inside the raster", () => {
    const places = { x: centres(8, 15e-3), y: centres(8, 15e-3) };
    expect(() => rasterMap(plate, raster, 301, 0.006, places)).toThrow("must be later than the last pulse");
    const x = { low: 0, high: 1e-3 };
    expect(() => rasterMap(plate, raster, 301, 1, places, { x, y: null })).toThrow("invalid upper edge in x: 0.001 m");
  });
});
