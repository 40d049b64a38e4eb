import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { effectiveMetal, metalResponse, responseTable, type SpreadLine, spreadResponse } from "#removal";
import type { MetalResponse } from "#removal";
import type { MetalSample } from "#terms";
import { sampleOf } from "./samples.ts";

/** Evenly over a range: doubles as the library draws them are mostly next to nothing. */
const evenly = (low: number, high: number) =>
  fc.integer({ min: 0, max: 1e6 }).map((i) => low + ((high - low) * i) / 1e6);

const metal: MetalSample = {
  ...sampleOf("steel-low-carbon", [["alkyd", "dark", 60, false]]).metal,
  temperature: Float64Array.of(300, 3000),
  conductivity: Float64Array.of(30, 30),
  heatCapacity: Float64Array.of(500, 500),
  meltingTemperature: 1800,
};
/** A column that answers by simple rules: rise 0.8 of the linear one, melt a nanometre for each kelvin over the onset. */
const plain: MetalResponse = {
  rise: (linear) => 0.8 * linear,
  meltOnset: (start) => (1800 - start) / 0.8,
  meltDepth: (linear, start) => Math.max(0, linear - (1800 - start) / 0.8) * 1e-9,
  riseForMeltDepth: (depth, start) => (1800 - start) / 0.8 + depth * 1e9,
};
const line = (lateralFactor: number, meanConductivity = 30): SpreadLine => ({
  lateralFactor,
  radius: 50e-6,
  meanConductivity,
});

describe("a line whose heat spreads sideways", () => {
  it("is the column where nothing spreads", () => {
    const same = spreadResponse(plain, metal, line(1));
    expect(same.rise(1000, 300)).toBeCloseTo(800, 9);
    // 1500/0.8 = 1875, found to 1e-6 of a span of 2.7 onsets
    expect(Math.abs(same.meltOnset(300) - 1875)).toBeLessThan(1875 * 2.7e-6);
  });

  it("is the settled heat where all of it spreads: constant conductivity of 30 against a mean of 24 makes 0.8", () => {
    const all = spreadResponse({ ...plain, rise: () => 1e9 }, metal, line(1e-9, 24));
    expect(all.rise(1000, 300)).toBeCloseTo(800, 3);
  });

  it("lies between by L^1.5: 0.25 leaves an eighth to the column", () => {
    // 800/8 + 7/8·1000
    expect(spreadResponse(plain, metal, line(0.25)).rise(1000, 300)).toBeCloseTo(975, 9);
    // onset at 1500/0.975 = 1538.46
    const made = spreadResponse(plain, metal, line(0.25));
    expect(Math.abs(made.meltOnset(300) - 1538.4615)).toBeLessThan(1875 * 2.7e-6);
    expect(made.meltOnset(900)).toBeCloseTo(900 / 0.975, 1);
    expect(made.meltOnset(300)).toBeCloseTo(1538.46, 1);
  });

  it("melts nothing below its onset, and above it no deeper than the column nor than settled heat", () => {
    const made = spreadResponse(plain, metal, line(0.9));
    const onset = made.meltOnset(300);
    expect(made.meltDepth(0.999 * onset, 300, 1e-3, 8e-6)).toBe(0);
    // settled heat that rises by half of the linear one only: the column alone would melt at 1875 K already
    const slow = spreadResponse(plain, metal, line(0.25, 15));
    expect(slow.meltOnset(300)).toBeCloseTo(1500 / (0.8 / 8 + 0.5 * (7 / 8)), 1);
    expect(slow.meltDepth(2500, 300, 1e-3, 8e-6)).toBe(0);
    expect(slow.meltDepth(2900, 300, 1e-3, 8e-6)).toBeGreaterThan(0);
    const deep = made.meltDepth(3 * 1875, 300, 1e-3, 8e-6);
    // over = 3: erfcx(x) = 1/3 between x = 1.4 (0.3387) and 1.5 (0.3216): z = x·50 µm/√2
    expect(deep).toBeLessThan(3750e-9);
    const settled = 1 / Math.sqrt(1 / deep ** 2 - 1 / 3750e-9 ** 2);
    expect(settled).toBeGreaterThan((1.4 * 50e-6) / Math.SQRT2);
    expect(settled).toBeLessThan((1.5 * 50e-6) / Math.SQRT2);
  });

  it("finds the rise for a melt depth again, on a real metal, and never falls with heat", () => {
    const real = sampleOf("steel-low-carbon", [["alkyd", "dark", 60, false]]).metal;
    const effective = effectiveMetal(real);
    const column = metalResponse(responseTable(real, "gaussian"));
    const made = spreadResponse(column, real, {
      lateralFactor: 0.6,
      radius: 50e-6,
      meanConductivity: effective.conductivity,
    });
    fc.assert(
      fc.property(evenly(293.15, 1400), evenly(1.05, 4), (start, over) => {
        const onset = made.meltOnset(start);
        expect(made.rise(onset * (1 + 1e-5), start)).toBeGreaterThanOrEqual(
          (real.meltingTemperature - start) * (1 - 1e-9),
        );
        expect(made.rise(onset * (1 - 1e-5), start)).toBeLessThan(real.meltingTemperature - start);
        const linear = over * Math.max(onset, column.meltOnset(start));
        const depth = made.meltDepth(linear, start, 1e-3, effective.diffusivity);
        expect(depth).toBeGreaterThan(0);
        expect(depth).toBeLessThan(column.meltDepth(linear, start, 1e-3, effective.diffusivity));
        expect(made.meltDepth(1.05 * linear, start, 1e-3, effective.diffusivity)).toBeGreaterThanOrEqual(depth);
        const back = made.riseForMeltDepth(depth, start, 1e-3, effective.diffusivity);
        expect(Math.abs(made.meltDepth(back, start, 1e-3, effective.diffusivity) / depth - 1)).toBeLessThan(2e-3);
        expect(made.rise(1.02 * linear, start)).toBeGreaterThan(made.rise(linear, start));
      }),
      { numRuns: 60 },
    );
  });

  it("remembers no onset of another start", () => {
    const made = spreadResponse(plain, metal, line(0.25));
    const first = made.meltOnset(300);
    made.meltDepth(2000, 900, 1e-3, 8e-6);
    expect(made.meltOnset(300)).toBe(first);
    expect(made.meltDepth(2500, 300, 1e-3, 8e-6)).toBe(
      spreadResponse(plain, metal, line(0.25)).meltDepth(2500, 300, 1e-3, 8e-6),
    );
  });
});
