import { describe, expect, it } from "vitest";
import {
  burstOf,
  defocusBand,
  diameterAtDefocus,
  fluenceBand,
  fluenceMean,
  fresnelAbsorptance,
  meanPowerModulated,
  obliqueSpot,
  overlap,
  rimAngle,
  sagitta,
} from "#beam";
import { bareAbsorptance } from "#light";
import { InvalidInput } from "#units";

const degree = Math.PI / 180;

describe("oblique incidence", () => {
  it("spreads the same energy over a longer ellipse", () => {
    for (const angle of [0, 20, 60, 85].map((a) => a * degree)) {
      const { along, across, fluenceFactor } = obliqueSpot(80e-6, angle);
      const fluence = 1e-3 / ((Math.PI / 4) * along * across);
      expect(fluence).toBeCloseTo(fluenceMean(1e-3, 80e-6) * fluenceFactor, 3);
      expect(across).toBe(80e-6);
    }
    expect(obliqueSpot(1e-4, 60 * degree).along).toBeCloseTo(2e-4, 12);
    expect(() => obliqueSpot(1e-4, 90 * degree)).toThrow(InvalidInput);
  });

  // n, k at 1.064 µm: Johnson and Christy 1974 (Fe), 1972 (Cu); Rakić 1995 (Al)
  it.each([
    ["Fe", 2.958, 3.998],
    ["Al", 1.376, 10.25],
    ["Cu", 0.351, 7.033],
  ])("meets the bare absorptance of %s at normal incidence", (_name, n, k) => {
    const { s, p, unpolarised } = fresnelAbsorptance(n, k, 0);
    for (const a of [s, p, unpolarised]) expect(a).toBeCloseTo(bareAbsorptance(n, k), 12);
  });

  it("takes more of p, less of s, and most of p near the pseudo-Brewster angle", () => {
    const at = (a: number) => fresnelAbsorptance(2.958, 3.998, a * degree);
    for (const a of [10, 30, 50, 70]) {
      expect(at(a).p).toBeGreaterThan(at(a - 5).p);
      expect(at(a).s).toBeLessThan(at(a - 5).s);
      expect(at(a).unpolarised).toBeCloseTo((at(a).s + at(a).p) / 2, 12);
    }
    // steel at 1 µm: maximum of p near 79°, about 0.75 (from memory)
    let best = 0;
    for (let a = 0; a < 90; a++) if (at(a).p > at(best).p) best = a;
    expect(Math.abs(best - 79)).toBeLessThanOrEqual(2);
    expect(Math.abs(at(best).p - 0.75)).toBeLessThan(0.03);
    expect(at(89.999).unpolarised).toBeLessThan(1e-3);
  });

  it("has Brewster's angle where the body is clear: all of p enters at atan n", () => {
    expect(fresnelAbsorptance(1.5, 0, Math.atan(1.5)).p).toBeCloseTo(1, 12);
    // s there: 1 − ((n² − 1)/(n² + 1))²
    expect(fresnelAbsorptance(1.5, 0, Math.atan(1.5)).s).toBeCloseTo(1 - (1.25 / 3.25) ** 2, 12);
  });
});

describe("stand-off over curved faces", () => {
  it("falls by the sagitta: R 50 mm, field 60 mm: 10 mm; nearly W²/8R on a large one", () => {
    expect(sagitta(0.05, 0.06)).toBeCloseTo(0.01, 12);
    expect(sagitta(100, 0.1) / (0.01 / 800)).toBeCloseTo(1, 6);
    expect(sagitta(0.05, 0.1)).toBeCloseTo(0.05, 12);
    expect(() => sagitta(0.05, 0.11)).toThrow("invalid field width: 0.11 m");
  });

  const face = { radius: 0.05, field: 0.06, middle: 0.002, standOffError: 0.003 };
  it("widens away from the head on a convex face, towards it on a concave one, not at all on a flat one", () => {
    const band = (kind: "flat" | "convex" | "concave") => defocusBand({ ...face, kind });
    expect(band("flat").low).toBeCloseTo(-0.001, 12);
    expect(band("flat").high).toBeCloseTo(0.005, 12);
    expect(band("convex").low).toBeCloseTo(-0.001, 12);
    expect(band("convex").high).toBeCloseTo(0.015, 12);
    expect(band("concave").low).toBeCloseTo(-0.011, 12);
    expect(band("concave").high).toBeCloseTo(0.005, 12);
    expect(() => defocusBand({ ...face, kind: "flat", standOffError: -1 })).toThrow(InvalidInput);
  });

  it("loses fluence as the spot grows and the rim leans away", () => {
    const zr = 0.01;
    const { low, high } = fluenceBand({ low: -0.001, high: 0.015 }, zr, rimAngle(0.05, 0.06));
    expect(high).toBe(1);
    // cos(asin 0.6) = 0.8; (d0/d)² at 15 mm
    expect(low).toBeCloseTo(0.8 * (1 / diameterAtDefocus(1, zr, 0.015)) ** 2, 12);
    const away = fluenceBand({ low: 0.01, high: 0.02 }, zr, 0);
    expect(away.high).toBeCloseTo(0.5, 12);
    expect(away.low).toBeCloseTo(0.2, 12);
    expect(rimAngle(null, 0.1)).toBe(0);
    expect(() => rimAngle(0.05, 0.1)).toThrow(InvalidInput);
  });
});

describe("modulated beam (common practice, no source)", () => {
  it("gives 200 W mean from 2 kW at 50 % level and 20 % duty", () => {
    expect(meanPowerModulated(2000, 0.5, 0.2)).toBeCloseTo(200, 12);
    // 5 kHz: bursts of 1 kW for 40 µs hold 40 mJ, and five thousand of them a second are those 200 W
    const burst = burstOf(2000, 0.5, 0.2, 5000, 10);
    expect(burst.energy).toBeCloseTo(0.04, 12);
    expect(burst.energy * 5000).toBeCloseTo(meanPowerModulated(2000, 0.5, 0.2), 9);
    expect(burst.pitch).toBeCloseTo(2e-3, 12);
    expect(burst.travel).toBeCloseTo(0.4e-3, 12);
    expect(burst.gap).toBeCloseTo(1.6e-3, 12);
    expect(() => burstOf(2000, 0.5, 1.2, 5000, 10)).toThrow(InvalidInput);
  });

  it("overlaps by half with 0.32 mm spots at 0.16 mm and with 0.2 mm at 0.1 mm", () => {
    expect(overlap(0.16e-3, 0.32e-3)).toBeCloseTo(0.5, 12);
    expect(overlap(0.1e-3, 0.2e-3)).toBeCloseTo(0.5, 12);
    expect(overlap(0.4e-3, 0.32e-3)).toBeLessThan(0);
  });
});
