import { describe, expect, it } from "vitest";
import {
  depthDecay,
  depthFactor,
  type PulseRaster,
  plateDepthRise,
  plateKernel,
  pulseTrainRise,
  rasterBeforePulse,
  rasterMap,
  sequenceBeforePulse,
} from "#heat";

const plate = { conductivity: 40, volumetricHeat: 3.925e6, plateThickness: 5e-3 };
const kernel = plateKernel(plate, 125e-6);
/** h²/D */
const whole = plate.plateThickness ** 2 / kernel.diffusivity;

describe("depth factor of a plate", () => {
  it.each([1e-4, 0.02, 0.03, 0.2, 0.318, 0.319, 1, 10])("at %d of h²/D: the exact rise, and its slope", (share) => {
    const age = share * whole;
    const exact = plateDepthRise(plate, 0, age) * plate.volumetricHeat;
    expect(Math.abs(depthFactor(kernel, age) / exact - 1)).toBeLessThan(1e-12);
    const step = 1e-4;
    const log = (f: number) => Math.log(depthFactor(kernel, age * f));
    const slope = (log(1 - step) - log(1 + step)) / (2 * step * age);
    expect(Math.abs(depthDecay(kernel, age) - slope) * age).toBeLessThan(1e-6);
  });
});

describe("coarse groups still match to second order (ages in one group up to 2, cells as wide as the heat)", () => {
  const lineTime = 41 * 20e-6 + 1e-4;
  const raster: PulseRaster = {
    energy: 1e-3,
    radius: 125e-6,
    pitch: 20e-6,
    lineSpacing: 0.05e-3,
    pulsesPerLine: 41,
    linesPerPass: 12,
    period: 20e-6,
    lineTime,
    passTime: 12 * lineTime,
    serpentine: false,
  };
  const n = 41 * 12 * 2 - 9;
  const make = (f: (step: number, line: number, pass: number) => number) =>
    Float64Array.from({ length: n }, (_, i) => f(i % 41, Math.floor(i / 41) % 12, Math.floor(i / 492)));
  const x = make((step) => step * raster.pitch);
  const y = make((_, line) => line * raster.lineSpacing);
  const time = make((step, line, pass) => pass * raster.passTime + line * lineTime + step * raster.period);
  const coarse = { ageRatio: 2, cell: 1 };

  it("map: within 0.75 % of the largest rise", () => {
    const axis = (side: number) => Float64Array.from({ length: 9 }, (_, i) => ((i + 0.5) * side) / 9);
    const places = { x: axis(0.8e-3), y: axis(0.6e-3) };
    const at = time[n - 1]! + 2e-5;
    const map = rasterMap(plate, raster, n, at, places, undefined, coarse);
    const direct = Array.from(map, (_, k) =>
      pulseTrainRise(plate, 1e-3, 125e-6, { x, y, time }, places.x[k % 9]!, places.y[Math.floor(k / 9)]!, at),
    );
    const largest = Math.max(...direct);
    for (const [k, value] of direct.entries()) expect(Math.abs(map[k]! - value)).toBeLessThan(7.5e-3 * largest);
  });

  it("sequence: within 0.15 % of the largest rise", () => {
    const pulses = { x, y, time, energy: new Float64Array(n).fill(1e-3) };
    const rise = sequenceBeforePulse(plate, 125e-6, pulses, coarse);
    const exact = rasterBeforePulse(plate, raster, n);
    const largest = Math.max(...exact);
    for (let i = 0; i < n; i++) expect(Math.abs(rise[i]! - exact[i]!)).toBeLessThan(1.5e-3 * largest);
  });
});
