import { describe, expect, it } from "vitest";
import {
  halfSpaceFluxRise,
  lateralCaveat,
  lateralFactorFrom,
  movingGaussianMaximumRise,
  movingLateralTable,
  settledRise,
  spreadMeltDepth,
  spreadRise,
  movingGaussianHalfSpaceRise,
  stationaryGaussianRise,
} from "#heat";
import { integrate } from "#numerics";

const steel = { conductivity: 50, density: 7850, heatCapacity: 480 };
const diffusivity = 50 / (7850 * 480);
const lateralFactor = lateralFactorFrom(movingLateralTable());

/** Highest rise of a half-space lit at one point as the middle of a passing Gaussian beam lights it, heat going down only. */
function passingColumnRise(power: number, radius: number, speed: number): number {
  const intensity = (2 * power) / (Math.PI * radius * radius);
  let highest = 0;
  for (let s = 0; s < 1; s += 0.01) {
    const t = (s * radius) / speed;
    // u² is the time since the heat came in.
    const f = (u: number) => Math.exp(-2 * ((speed * (t - u * u)) / radius) ** 2);
    const reach = Math.sqrt((4 * radius) / speed);
    const sum = integrate(f, 0, reach, { relative: 1e-9 });
    highest = Math.max(highest, (2 * intensity * sum * Math.sqrt(diffusivity / Math.PI)) / 50);
  }
  return highest;
}

describe("lateral factor", () => {
  it("of a standing pulse is the Gaussian beam over the column, both closed forms", () => {
    for (const duration of [1e-7, 1e-5, 1e-3, 0.1]) {
      const radius = 100e-6;
      const column = halfSpaceFluxRise(steel, (2 * 20) / (Math.PI * radius * radius), 0, duration);
      const beam = stationaryGaussianRise(steel, 20, radius, duration);
      expect(lateralFactor({ duration, radius, diffusivity, speed: 0 })).toBeCloseTo(beam / column, 9);
    }
  });
  it("of a moving beam is the exact maximum over the column with the same history, to 3e-4", () => {
    for (const [radius, speed] of [
      [50e-6, 0.02],
      [100e-6, 0.3],
      [300e-6, 1],
      [1e-3, 4],
    ] as const) {
      const exact = movingGaussianMaximumRise(steel, 20, radius, speed) / passingColumnRise(20, radius, speed);
      const factor = lateralFactor({ duration: 1, radius, diffusivity, speed });
      expect(Math.abs(factor / exact - 1)).toBeLessThan(3e-4);
    }
  });
  it("rises with speed from 0 to 1 and never leaves that range", () => {
    let before = 0;
    for (let speed = 1e-7; speed < 1e5; speed *= 3) {
      const factor = lateralFactor({ duration: 1, radius: 100e-6, diffusivity, speed });
      expect(factor).toBeGreaterThanOrEqual(before);
      expect(factor).toBeLessThanOrEqual(1);
      before = factor;
    }
    expect(before).toBeGreaterThan(0.999);
  });
});

describe("between column and settled heat", () => {
  it("finds the rise that carries the same ∫k dT, through and beyond the table", () => {
    const table = { temperature: Float64Array.of(300, 800, 1000), conductivity: Float64Array.of(120, 160, 90) };
    const carried = (rise: number) =>
      integrate((t) => (t < 800 ? 120 + 0.08 * (t - 300) : t < 1000 ? 160 - 0.35 * (t - 800) : 90), 300, 300 + rise, {
        relative: 1e-9,
      });
    for (const rise of [50, 480, 640, 1500]) {
      expect(settledRise(table, 130, carried(rise) / 130, 300)).toBeCloseTo(rise, 3);
    }
  });
  it("takes the column where heat goes straight down and settled heat where it spreads", () => {
    expect(spreadRise(100, 140, 1)).toBe(100);
    expect(spreadRise(100, 140, 0)).toBe(140);
    expect(spreadRise(100, 140, 0.25)).toBeCloseTo(135, 12);
  });
  it("melts down to the isotherm of a standing beam where the column would go deeper, to the column's depth where not", () => {
    const radius = 100e-6;
    for (const over of [1.2, 2, 3]) {
      const settled = spreadMeltDepth(1, radius, over);
      const top = movingGaussianHalfSpaceRise(steel, 1, radius, 0, { x: 0, y: 0, z: 0 });
      const there = movingGaussianHalfSpaceRise(steel, 1, radius, 0, { x: 0, y: 0, z: settled });
      expect(top / there).toBeCloseTo(over, 6);
      expect(spreadMeltDepth(1e-8, radius, over)).toBeCloseTo(1e-8, 11);
    }
    expect(spreadMeltDepth(1e-5, radius, 0.99)).toBe(0);
  });
  it("says what cannot be borne out, and nothing where the referee agrees", () => {
    const fine = { peclet: 5, over: 2, boils: false, radius: 1e-4, thickness: 2e-3 };
    expect(lateralCaveat(fine)).toBeNull();
    expect(lateralCaveat({ ...fine, over: 0.7 })).toBeNull();
    expect(lateralCaveat({ ...fine, over: 1.1 })).toMatch(/only just begun/);
    expect(lateralCaveat({ ...fine, over: 5 })).toMatch(/three times/);
    expect(lateralCaveat({ ...fine, boils: true })).toMatch(/boils/);
    expect(lateralCaveat({ ...fine, thickness: 1e-4 })).toMatch(/thinner/);
    expect(lateralCaveat({ ...fine, peclet: 1e-3 })).toMatch(/not checked/);
  });
});
