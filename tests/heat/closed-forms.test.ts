import { describe, expect, it } from "vitest";
import {
  ablationDepth,
  accumulationSum,
  beerLambertRise,
  craterDiameter,
  diffusivity,
  fastGaussianMaximumRise,
  filmOnSubstrateRise,
  halfSpaceFluxRise,
  halfSpacePulseRise,
  incubationFactor,
  movingGaussianHalfSpaceRise,
  movingGaussianMaximumRise,
  movingGaussianShapeMaximum,
  slabFluxRise,
  slabRiseCosine,
  slabRiseImages,
  stationaryGaussianRise,
  stationaryGaussianSteadyRise,
  stefanFront,
  stefanOnePhase,
  stefanTwoPhase,
  thinPlatePeakTemperature,
  thinPlateZoneWidth,
} from "#heat";

const steel = { conductivity: 50, density: 7850, heatCapacity: 480 };
const paint = { conductivity: 0.3, density: 1300, heatCapacity: 1500 };
const magnetite = { conductivity: 3.5, density: 5170, heatCapacity: 650 };
const aluminium = { conductivity: 167, density: 2700, heatCapacity: 896 };

/** Relative difference from a published or independently computed value. */
function off(value: number, reference: number): number {
  return Math.abs(value / reference - 1);
}

describe("half-space under a constant flux (Carslaw & Jaeger, 2nd ed., 2.9)", () => {
  it.each([
    [0, 1e-7, 2599.648],
    [1e-6, 1e-7, 1074.604],
    [2e-6, 1e-7, 345.307],
    [0, 2e-7, 1076.81],
    [0, 1e-6, 421.865],
  ])("at depth %d m and %d s", (depth, time, rise) => {
    expect(off(halfSpacePulseRise(steel, 1e11, 1e-7, depth, time), rise)).toBeLessThan(2e-6);
  });
  it("is nothing at time 0 and refuses a negative depth", () => {
    expect(halfSpaceFluxRise(steel, 1e11, 0, 0)).toBe(0);
    expect(() => halfSpaceFluxRise(steel, 1e11, -1e-6, 1e-7)).toThrow(
      "invalid depth: -0.000001 m (must be 0 or above)",
    );
  });
});

describe("half-space that absorbs by Beer-Lambert (Ready 1971; Carslaw & Jaeger 2.11)", () => {
  it.each([
    [1e11, 1e5, 0, 1e-7, 508.0748],
    [1e11, 1e5, 5e-6, 1e-7, 311.0653],
    [2e5, 2e4, 0, 0.5, 178.6418],
    [2e5, 2e4, 2e-4, 0.5, 104.186],
  ])("I = %d, alpha = %d, z = %d, t = %d", (flux, absorption, depth, time, rise) => {
    expect(off(beerLambertRise(paint, flux, absorption, depth, time), rise)).toBeLessThan(2e-6);
  });
});

describe("slab with insulated back (Carslaw & Jaeger, 2nd ed., 3.8)", () => {
  it.each([
    [0, 0.01, 56.61628],
    [1.5e-3, 0.01, 13.46837],
    [0, 0.1, 305.51331],
    [1.5e-3, 0.1, 260.60313],
  ])("at z = %d m, t = %d s, by two independent series", (depth, time, rise) => {
    expect(off(slabRiseCosine(aluminium, 1e7, 1.5e-3, depth, time), rise)).toBeLessThan(1e-6);
    expect(off(slabRiseImages(aluminium, 1e7, 1.5e-3, depth, time), rise)).toBeLessThan(1e-6);
    expect(off(slabFluxRise(aluminium, 1e7, 1.5e-3, depth, time), rise)).toBeLessThan(1e-6);
  });
});

describe("film on substrate (Carslaw & Jaeger, 2nd ed., 12.8)", () => {
  it("poor conductor on steel", () => {
    expect(off(filmOnSubstrateRise(paint, steel, 1e6, 50e-6, 0, 0.01), 138.1736)).toBeLessThan(1e-6);
    expect(off(filmOnSubstrateRise(paint, steel, 1e6, 50e-6, 50e-6, 0.01), 3.8741)).toBeLessThan(2e-5);
  });
  it("thin oxide on steel", () => {
    expect(off(filmOnSubstrateRise(magnetite, steel, 5e10, 1e-6, 0, 1e-7), 5202.205)).toBeLessThan(1e-6);
    expect(off(filmOnSubstrateRise(magnetite, steel, 5e10, 1e-6, 1e-6, 1e-7), 26.135)).toBeLessThan(2e-5);
  });
  it("without a difference in material it is the half-space", () => {
    const film = filmOnSubstrateRise(steel, steel, 1e11, 3e-6, 1e-6, 1e-7);
    expect(off(film, halfSpaceFluxRise(steel, 1e11, 1e-6, 1e-7))).toBeLessThan(1e-12);
  });
});

describe("Gaussian beams (Ready 1971; Cline & Anthony 1977; Eagar & Tsai 1983)", () => {
  it("stationary", () => {
    expect(off(stationaryGaussianSteadyRise(steel, 100, 0.5e-3), 1595.769)).toBeLessThan(1e-6);
    expect(off(stationaryGaussianRise(steel, 100, 0.5e-3, 0.01), 1136.781)).toBeLessThan(1e-6);
  });
  it.each([
    [0.1, 965.844, 1015.42],
    [1, 352.081, 407.729],
  ])("moving at %d m/s", (speed, centre, maximum) => {
    const at = movingGaussianHalfSpaceRise(steel, 100, 0.5e-3, speed, { x: 0, y: 0, z: 0 });
    expect(off(at, centre)).toBeLessThan(2e-6);
    expect(off(movingGaussianMaximumRise(steel, 100, 0.5e-3, speed), maximum)).toBeLessThan(2e-6);
  });
  it("stands still at no speed, also below the surface", () => {
    const still = movingGaussianHalfSpaceRise(steel, 100, 0.5e-3, 0, { x: 0, y: 0, z: 0 });
    expect(off(still, stationaryGaussianSteadyRise(steel, 100, 0.5e-3))).toBeLessThan(1e-9);
    // Far below the beam it is a point source on an insulated surface, P/(2πkz).
    const deep = movingGaussianHalfSpaceRise(steel, 100, 0.5e-3, 0, { x: 0, y: 0, z: 50e-3 });
    expect(off(deep, 100 / (2 * Math.PI * 50 * 50e-3))).toBeLessThan(1e-4);
  });
  it("tends to the limit of high speed, 0.650076 P/(k w sqrt(v w/D))", () => {
    const shape = 4 / (Math.PI ** 1.5 * Math.sqrt(8));
    expect(off(shape * movingGaussianShapeMaximum(1e7) * Math.sqrt(1e7), 0.650076)).toBeLessThan(2e-6);
    const fast = fastGaussianMaximumRise(steel, 100, 0.5e-3, 10);
    expect(fast / movingGaussianMaximumRise(steel, 100, 0.5e-3, 10)).toBeGreaterThan(1);
    expect(off(fast, movingGaussianMaximumRise(steel, 100, 0.5e-3, 10))).toBeLessThan(0.01);
  });
});

describe("thin-plate welding formula (AWS Welding Handbook vol. 1, worked example, from memory)", () => {
  // 20 V, 200 A, efficiency 0.9, 5 mm/s, 5 mm plate
  const pass = {
    heatPerLength: (0.9 * 20 * 200) / 5e-3,
    plateThickness: 5e-3,
    volumetricHeat: 4.4e6,
    meltingTemperature: 1510,
    plateTemperature: 25,
  };
  it("gives the printed peaks, whole degrees as printed", () => {
    expect(Math.abs(thinPlatePeakTemperature(pass, 1.5e-3) - 1184)).toBeLessThan(1);
    expect(Math.abs(thinPlatePeakTemperature(pass, 3e-3) - 976)).toBeLessThan(1);
  });
  it("gives the printed widths, tenths of a millimetre as printed", () => {
    expect(thinPlateZoneWidth(pass, 730) * 1e3).toBeCloseTo(5.9, 1);
    expect(thinPlateZoneWidth({ ...pass, plateTemperature: 200 }, 730) * 1e3).toBeCloseTo(8.9, 1);
  });
});

describe("Stefan problems (Carslaw & Jaeger, 2nd ed., 11.2)", () => {
  it.each([
    [0.1, 0.220016],
    [0.5, 0.464786],
    [1, 0.620063],
    [2, 0.800601],
  ])("one phase, St = %d", (stefan, lambda) => {
    expect(Math.abs(stefanOnePhase(stefan) - lambda)).toBeLessThan(6e-7);
  });
  it("two phases", () => {
    const solid = { conductivity: 210, density: 2550, heatCapacity: 1060 };
    const liquid = { conductivity: 93, density: 2550, heatCapacity: 1080 };
    const lambda = stefanTwoPhase({
      solid,
      liquid,
      latentHeat: 397e3,
      meltingTemperature: 933.5,
      wallTemperature: 333.5,
      startTemperature: 1033.5,
    });
    expect(Math.abs(lambda - 0.661034)).toBeLessThan(6e-7);
    expect(off(stefanFront(lambda, diffusivity(solid), 1), 1.16531e-2)).toBeLessThan(5e-6);
  });
  it("refuses a Stefan number of 0", () => {
    expect(() => stefanOnePhase(0)).toThrow("invalid Stefan number: 0 (must be above 0)");
  });
});

describe("ablation laws", () => {
  it("depth z = ln(F/Fth)/alpha, nothing below the threshold", () => {
    expect(off(ablationDepth(5, 1, 1e5), 16.094e-6)).toBeLessThan(3e-5);
    expect(ablationDepth(0.5, 1, 1e5)).toBe(0);
  });
  it("crater diameter (Liu, Opt. Lett. 7 (1982) 196)", () => {
    expect(off(craterDiameter(5, 1, 25e-6), 44.853e-6)).toBeLessThan(3e-5);
    expect(craterDiameter(1, 1, 25e-6)).toBe(0);
  });
  it("incubation (Jee, Becker & Walser, J. Opt. Soc. Am. B 5 (1988) 648)", () => {
    expect(incubationFactor(0.9, 10)).toBeCloseTo(0.794, 3);
    expect(incubationFactor(0.9, 100)).toBeCloseTo(0.631, 3);
    expect(incubationFactor(0.9, 1000)).toBeCloseTo(0.501, 3);
    expect(incubationFactor(0.9, 1)).toBe(1);
  });
  it("heat accumulation tends to zeta(3/2) (Weber et al., Opt. Express 22 (2014) 11312)", () => {
    expect(Math.abs(accumulationSum(Number.POSITIVE_INFINITY) - 2.612375)).toBeLessThan(6e-7);
    let direct = 0;
    for (let n = 1; n <= 500; n++) direct += n ** -1.5;
    expect(Math.abs(accumulationSum(500) - direct)).toBeLessThan(1e-7);
    expect(accumulationSum(0)).toBe(0);
  });
});
