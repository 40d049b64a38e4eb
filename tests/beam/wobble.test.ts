import { describe, expect, it } from "vitest";
import { type Wobble, wobbleDwell, wobbleLoad, wobblePosition, wobblePulses } from "#beam";
import { integrate } from "#numerics";
import { InvalidInput } from "#units";

const wobble = (shape: Wobble["shape"], amplitude = 1e-3): Wobble => ({
  shape,
  speed: 0.02,
  amplitude,
  frequency: 100,
});

describe("wobbled line", () => {
  it("moves on by v/f_w in a swing and swings by A to either side", () => {
    for (const shape of ["across", "circle", "eight"] as const) {
      const w = wobble(shape);
      const [a, b] = [wobblePosition(w, 0.0123), wobblePosition(w, 0.0123 + 0.01)];
      expect(b.x - a.x).toBeCloseTo(0.02 / 100, 12);
      expect(b.y).toBeCloseTo(a.y, 12);
      const ys = Array.from({ length: 400 }, (_, i) => wobblePosition(w, i / 40000).y);
      expect(Math.max(...ys)).toBeCloseTo(1e-3, 7);
      expect(Math.min(...ys)).toBeCloseTo(-1e-3, 7);
    }
    // a quarter of a swing: at the turn, on the line's own x
    expect(wobblePosition(wobble("across"), 0.0025)).toEqual({ x: 0.02 * 0.0025, y: 1e-3 });
    expect(wobblePosition(wobble("circle"), 0).x).toBeCloseTo(1e-3, 12);
    expect(wobblePosition(wobble("eight"), 0.00125).x).toBeCloseTo(0.02 * 0.00125 + 0.5e-3, 12);
  });

  it("puts pulses on its path", () => {
    const pulses = wobblePulses(wobble("circle"), 20e3, 300);
    expect(pulses.length).toBe(600);
    const p = wobblePosition(wobble("circle"), 299 / 20e3);
    expect([pulses[598], pulses[599]]).toEqual([p.x, p.y]);
    expect(() => wobblePulses(wobble("circle"), 0, 3)).toThrow(InvalidInput);
  });

  it("is at most as far from pulse to pulse as its least overlap says", () => {
    for (const shape of ["across", "circle", "eight"] as const) {
      const d = 100e-6;
      const pulses = wobblePulses(wobble(shape), 50e3, 5000);
      let step = 0;
      for (let i = 2; i < pulses.length; i += 2)
        step = Math.max(step, Math.hypot(pulses[i]! - pulses[i - 2]!, pulses[i + 1]! - pulses[i - 1]!));
      const { pulseOverlapLeast, speedMin, speedMax } = wobbleLoad(wobble(shape), d, 50e3);
      expect(1 - step / d).toBeCloseTo(pulseOverlapLeast!, 3);
      expect(speedMin).toBeLessThan(speedMax);
    }
    // 2π·100 Hz·1 mm across, 20 mm/s along
    expect(wobbleLoad(wobble("across"), 1e-4, null).speedMax).toBeCloseTo(Math.hypot(0.02, 0.2 * Math.PI), 9);
    expect(wobbleLoad(wobble("across"), 1e-4, null).speedMin).toBeCloseTo(0.02, 9);
    // against the direction of travel a circle is slowest: 2πfA − v
    expect(wobbleLoad(wobble("circle"), 1e-4, null).speedMin).toBeCloseTo(0.2 * Math.PI - 0.02, 6);
  });

  it("gives the plain line for no swing", () => {
    const w = wobble("across", 0);
    expect(wobbleDwell(w, 50e-6, 0)).toBeCloseTo((Math.sqrt(Math.PI / 2) * 50e-6) / 0.02, 15);
    const { dwellPeak, peakAt, swingOverlap } = wobbleLoad(w, 400e-6, null);
    expect(dwellPeak).toBeCloseTo((Math.sqrt(Math.PI / 2) * 200e-6) / 0.02, 15);
    expect(peakAt).toBe(0);
    expect(swingOverlap).toBeCloseTo(0.5, 12);
  });

  it("keeps the energy of the line: the dose summed across is πr²/2v whatever the swing", () => {
    for (const amplitude of [0, 50e-6, 0.3e-3, 1e-3]) {
      const total = integrate((y) => wobbleDwell(wobble("across", amplitude), 50e-6, y), -2e-3, 2e-3, {
        relative: 1e-8,
      });
      expect(total / ((Math.PI * 50e-6 ** 2) / (2 * 0.02))).toBeCloseTo(1, 7);
    }
  });

  it("is hottest near the turns: a wide swing overheats its edges, a narrow one its middle", () => {
    const wide = wobbleLoad(wobble("across", 1e-3), 100e-6, null);
    expect(wide.peakAt).toBeGreaterThan(0.9e-3);
    expect(wide.peakAt).toBeLessThan(1e-3);
    expect(wide.dwellPeak / wide.dwellMean).toBeGreaterThan(2);
    expect(wide.dwellPeak).toBeGreaterThan(2 * wobbleDwell(wobble("across", 1e-3), 50e-6, 0));
    expect(wobbleLoad(wobble("across", 20e-6), 100e-6, null).peakAt).toBe(0);
    expect(() => wobbleLoad(wobble("across", 1), 1e-4, null)).toThrow("invalid wobble amplitude: 1 m");
  });
});
