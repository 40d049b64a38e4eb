import { describe, expect, it } from "vitest";
import { type BowCase, bowHeight, bowOfSweep, gradientBendAngle, heatingCurvature, yieldRise } from "#heat";
import { erfc, integrate } from "#numerics";
import { InvalidInput } from "#units";

/** 3 mm of low carbon steel swept at 1 m/s with a 0.2 mm spot (usual handbook values, from memory). */
const steel: BowCase = {
  plateThickness: 3e-3,
  peakRise: 1000,
  dwell: 2e-4,
  diffusivity: 1.0e-5,
  expansion: 1.3e-5,
  youngsModulus: 205e9,
  poissonRatio: 0.29,
  yieldStrength: 250e6,
};

describe("bow of a swept plate", () => {
  it("yields from the rise at which a clamped skin does: steel by about 67 K", () => {
    // 250e6·0.71/(205e9·1.3e-5), by hand
    expect(yieldRise(250e6, 205e9, 0.29, 1.3e-5)).toBeCloseTo(66.6, 1);
    expect(bowOfSweep({ ...steel, peakRise: 60 })).toEqual({ curvature: 0, low: 0, high: 0, reason: null });
  });

  it("lifts the edges towards the beam, more the hotter and the thinner, with a range around it", () => {
    const { curvature, low, high } = bowOfSweep(steel);
    expect(curvature).toBeGreaterThan(0);
    expect(low).toBeLessThan(curvature!);
    expect(high).toBeGreaterThan(curvature!);
    expect(bowOfSweep({ ...steel, peakRise: 500 }).curvature).toBeLessThan(curvature!);
    expect(bowOfSweep({ ...steel, dwell: 1e-4 }).curvature).toBeLessThan(curvature!);
    // a thin skin on a plate of double thickness: a quarter of the curvature, nearly
    expect(bowOfSweep({ ...steel, plateThickness: 6e-3 }).curvature! / curvature!).toBeCloseTo(0.25, 1);
  });

  it("is never above a skin at yield over its whole depth (Stoney): 6·σ_y·(1 − ν)·h/(E·s²)", () => {
    // depth of 66.6 K: 1000·√π·ierfc(x) = 66.6 at x = 1.091 of √(4κt) = 89.4 µm (bisection)
    const stoney = (6 * 250e6 * 0.71 * 1.091 * 89.4e-6) / (205e9 * 9e-6);
    const { curvature } = bowOfSweep(steel);
    expect(curvature).toBeLessThan(stoney);
    expect(curvature).toBeGreaterThan(0.75 * stoney);
    // in words a fitter knows: about 0.05 m⁻¹, 0.5 mm on a length of 300 mm
    expect(bowHeight(curvature!, 0.3)).toBeCloseTo((curvature! * 0.09) / 8, 12);
    expect(bowHeight(curvature!, 0.3)).toBeGreaterThan(0.2e-3);
    expect(bowHeight(curvature!, 0.3)).toBeLessThan(1e-3);
  });

  it("is the moment of the shortened skin in a free plate, barely yielding or saturated", () => {
    const thin = { ...steel, plateThickness: 0.4e-3 };
    const length = Math.sqrt(4 * 1e-5 * 2e-4);
    const first = yieldRise(250e6, 205e9, 0.29, 1.3e-5);
    for (const peakRise of [90, 130, 1000]) {
      // ierfc x = e^(−x²)/√π − x·erfc x (Carslaw and Jaeger 1959)
      const hot = (z: number) => {
        const x = z / length;
        return peakRise * (Math.exp(-x * x) - Math.sqrt(Math.PI) * x * erfc(x));
      };
      const strain = (z: number) => 1.3e-5 * Math.min(Math.max(hot(z) - first, 0), first);
      const moment = integrate((z) => strain(z) * (0.4e-3 / 2 - z), 0, 0.3e-3, { relative: 1e-6 });
      const { curvature } = bowOfSweep({ ...thin, peakRise });
      expect(curvature! / ((12 / 0.4e-3 ** 3) * moment)).toBeCloseTo(1, 3);
    }
  });

  it("tells nothing where no formula holds, and says why", () => {
    expect(bowOfSweep({ ...steel, dwell: 0.5 })).toMatchObject({ curvature: null });
    expect(bowOfSweep({ ...steel, dwell: 0.5 }).reason).toContain("through the plate");
    expect(bowOfSweep({ ...steel, dwell: 1e-7 }).reason).toContain("observed only, never predicted");
    expect(() => bowOfSweep({ ...steel, plateThickness: 0 })).toThrow(InvalidInput);
  });
});

describe("bending while hot and by lines", () => {
  it("is the thermal moment of heat at the face: 6αQ/(ρc·s²)", () => {
    // the moment summed over a hot skin of a hundredth of the plate
    const [alpha, heat, rhoC, s] = [1.3e-5, 2e5, 3.7e6, 3e-3];
    const skin = s / 100;
    const rise = heat / (rhoC * skin);
    const moment = alpha * rise * skin * (s / 2 - skin / 2);
    expect(((12 / s ** 3) * moment) / heatingCurvature(heat, alpha, rhoC, s)).toBeCloseTo(0.99, 12);
  });

  it("is half of that per line in the trivial model of the temperature gradient (Vollertsen 1994, from memory)", () => {
    // 500 J/m absorbed on 1 mm of steel: 3·1.3e-5·500/(3.7e6·1e-6) = 5.27 mrad, 0.30°
    expect(gradientBendAngle(500, 1.3e-5, 3.7e6, 1e-3)).toBeCloseTo(5.27e-3, 5);
    expect(gradientBendAngle(500, 1.3e-5, 3.7e6, 2e-3)).toBeCloseTo(5.27e-3 / 4, 5);
  });
});
