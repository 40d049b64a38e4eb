import { describe, expect, it } from "vitest";
import { type BeamLine, pathHistories, pathRise } from "#heat";
import { plainLoops } from "#loops";

// Invented raster cases; values by adaptive quadrature in √age (own reference computation in another language).
const plate = { conductivity: 40, volumetricHeat: 3.925e6, plateThickness: 5e-3 };
const lineTime = 15e-3 / 4;
const lines: BeamLine[] = Array.from({ length: 120 }, (_, i) => ({
  startTime: i * lineTime,
  endTime: (i + 1) * lineTime,
  fromX: i % 2 === 0 ? 0 : 15e-3,
  toX: i % 2 === 0 ? 15e-3 : 0,
  fromY: i * 0.12e-3,
  toY: i * 0.12e-3,
}));
const one = (x: number, y: number, depth: number) => ({ x: new Float64Array([x]), y: new Float64Array([y]), depth });

describe("histories at probes under a moving beam", () => {
  it.each([
    [1, 14.8e-3, 0, 0, 2533.246914],
    [1, 14.5e-3, 0, 40e-6, 970.430931],
    [1, 14e-3, 0.1e-3, 0, 516.699566],
    [1, 10e-3, 0, 0.1e-3, 177.543003],
    [120, 0.5e-3, 14.2e-3, 0, 1043.219791],
    [120, 7.5e-3, 14.28e-3, 50e-6, 301.121821],
    [120, 7.5e-3, 7.5e-3, 0, 59.802478],
    [120, 3e-3, 12e-3, 5e-3, 0.853901],
  ])("after %d lines at (%d, %d, %d), to 0.1 K", (count, x, y, z, value) => {
    const end = new Float64Array([count * lineTime]);
    const rise = pathHistories(plate, 300, 150e-6, lines.slice(0, count), one(x, y, z), end);
    expect(Math.abs(rise[0]! - value)).toBeLessThan(0.1);
  });

  it.each([0, 60e-6])("many times, bursts and pauses, at depth %d: 0.1 K of the exact superposition", (depth) => {
    const bursts = lines.slice(0, 14).flatMap((l) => {
      const cut = (a: number) => ({ x: l.fromX + a * (l.toX - l.fromX), t: l.startTime + a * lineTime });
      const piece = (a: number, b: number) => ({
        ...l,
        startTime: cut(a).t,
        endTime: cut(b).t,
        fromX: cut(a).x,
        toX: cut(b).x,
      });
      return [piece(0, 0.3), piece(0.5, 1)];
    });
    const probes = { x: Float64Array.of(2e-3, 9e-3), y: Float64Array.of(0.2e-3, 1e-3), depth };
    const times = Float64Array.from({ length: 400 }, (_, i) => (i * 16 * lineTime) / 399);
    const rise = pathHistories(plate, 300, 150e-6, bursts, probes, times);
    const twin = pathHistories(plate, 300, 150e-6, bursts, probes, times, plainLoops.plate);
    for (let i = 0; i < rise.length; i++) expect(Math.abs(twin[i]! - rise[i]!)).toBeLessThan(1e-8);
    for (let k = 3; k < 400; k += 11) {
      for (const p of [0, 1]) {
        const place = { x: probes.x[p]!, y: probes.y[p]!, z: depth };
        const exact = pathRise(plate, 300, 150e-6, bursts, place, times[k]!);
        expect(Math.abs(rise[p * 400 + k]! - exact), `time ${k}, probe ${p}`).toBeLessThan(0.1);
      }
    }
  });

  it("refuses lines that overlap in time", () => {
    const twice = [lines[0]!, lines[0]!];
    const call = () => pathHistories(plate, 1, 1e-4, twice, one(0, 0, 0), new Float64Array(1));
    expect(call).toThrow("invalid pause before a line");
  });
});
