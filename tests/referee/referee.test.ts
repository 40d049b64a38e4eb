import { describe, expect, it } from "vitest";
import {
  movingGaussianHalfSpaceRise,
  movingGaussianMaximumRise,
  solveColumn,
  stefanFront,
  stefanOnePhase,
} from "#heat";
import { centralSample, metal } from "#library";
import { heldTopMelt, judgeOf, meltAgrees, peakAgrees, solveMovingLine, solvePulse } from "#referee";

/** Constant properties; melting only marks an isotherm where latent heat is 0. */
const body = { conductivity: 50, density: 7850, heatCapacity: 480 };
const diffusivity = 50 / (7850 * 480);
const constant = (meltingRise: number, latentHeat = 0) => ({
  density: 7850,
  temperature: Float64Array.of(300),
  conductivity: Float64Array.of(50),
  heatCapacity: Float64Array.of(480),
  meltingTemperature: 300 + meltingRise,
  latentHeatMelting: latentHeat,
  boilingTemperature: 20_000,
  latentHeatBoiling: 0,
});
const radius = 1e-4;
const spot = { profile: "gaussian", radius } as const;
const steel = centralSample({ layers: [], metal: metal("steel-low-carbon"), metalThickness: 0.01 }).metal;
const aluminium = centralSample({ layers: [], metal: metal("aluminium-5083"), metalThickness: 0.01 }).metal;

describe("referee: moving line", () => {
  it("meets the exact peak and isotherm of a moving Gaussian within 1 %, and keeps its energy", () => {
    for (const peclet of [5, 15]) {
      const speed = (peclet * diffusivity) / radius;
      const power = (1000 / movingGaussianMaximumRise(body, 1, radius, speed)) * 1;
      const line = { metal: constant(500), spot, power, speed, startTemperature: 300 };
      const read = solveMovingLine(line, { cells: 9 });
      expect(Math.abs(read.surfaceRise / 1000 - 1)).toBeLessThan(0.01);
      expect(Math.abs(read.energyRatio - 1)).toBeLessThan(1e-3);
      let hottest = 0;
      for (let x = -3; x <= 1; x += 0.05)
        hottest = Math.max(
          hottest,
          movingGaussianHalfSpaceRise(body, power, radius, speed, { x: x * radius, y: 0, z: read.meltDepth }),
        );
      expect(Math.abs(hottest / 500 - 1)).toBeLessThan(0.01);
    }
  });
  it("errs by the square of the cell", () => {
    const speed = (20 * diffusivity) / radius;
    const power = 1000 / movingGaussianMaximumRise(body, 1, radius, speed);
    const error = (cells: number) =>
      solveMovingLine({ metal: constant(5000), spot, power, speed, startTemperature: 300 }, { cells }).surfaceRise /
        1000 -
      1;
    expect(Math.log(error(5) / error(9)) / Math.log(9 / 5)).toBeGreaterThan(1.7);
  });
  it("spares melt depth by latent heat, and heats a plate thinner than its spot more", () => {
    const speed = 0.5;
    const line = { spot, power: 60, speed, startTemperature: 300 };
    const without = solveMovingLine({ ...line, metal: constant(1400) }, { cells: 5 });
    const withHeat = solveMovingLine({ ...line, metal: constant(1400, 2.5e5) }, { cells: 5 });
    expect(withHeat.meltDepth).toBeLessThan(0.95 * without.meltDepth);
    expect(withHeat.surfaceRise).toBeLessThan(without.surfaceRise);
    const plate = solveMovingLine({ ...line, metal: constant(1400), thickness: 5e-5 }, { cells: 5 });
    expect(plate.surfaceRise).toBeGreaterThan(1.2 * without.surfaceRise);
    expect(Math.abs(plate.energyRatio - 1)).toBeLessThan(1e-3);
  });
});

describe("referee: in time", () => {
  it("follows the one-phase Stefan front within 1 %", () => {
    // Liquid at 1000 K over metal at its melting point: St = c·ΔT/L = 480·400/250000.
    const lambda = stefanOnePhase((480 * 400) / 2.5e5);
    const exact = stefanFront(lambda, diffusivity, 1e-6);
    const melt = heldTopMelt({
      metal: constant(300, 2.5e5),
      topTemperature: 1000,
      startTemperature: 600,
      time: 1e-6,
      cell: exact / 60,
      steps: 150,
    });
    expect(Math.abs(melt / exact - 1)).toBeLessThan(0.01);
  });
  it("agrees with the full column where the spot is wide: peak within 1 %, melt within 3 %", () => {
    const [duration, wide] = [1e-7, 2e-4];
    const fluence = 1.1e4;
    const read = solvePulse(
      {
        metal: steel,
        spot: { profile: "gaussian", radius: wide },
        energy: (fluence * Math.PI * wide * wide) / 2,
        duration,
        startTemperature: 293.15,
      },
      { cells: 9, steps: 20 },
    );
    const column = solveColumn({
      layers: [],
      metal: steel,
      light: { layerShares: new Float64Array(0), metalShare: 1 },
      pulse: { fluence, duration, shape: "square" },
      startTemperature: 293.15,
      endTime: 2.5 * duration,
      grid: { metalCells: 100, metalFirstCell: 1e-8 },
    });
    expect(column.meltDepth).toBeGreaterThan(1e-7);
    expect(Math.abs(read.surfaceRise / (column.metalSurfacePeak - 293.15) - 1)).toBeLessThan(0.01);
    expect(Math.abs(read.meltDepth / column.meltDepth - 1)).toBeLessThan(0.03);
    expect(Math.abs(read.energyRatio - 1)).toBeLessThan(1e-3);
  });
  it("agrees with the full column under an absorbing layer within 2 %", () => {
    const layer = { thickness: 5e-6, density: 1400, conductivity: 0.3, heatCapacity: 1500, absorption: 1e5 };
    const [duration, wide, fluence] = [1e-7, 2e-4, 5e3];
    const read = solvePulse(
      {
        metal: steel,
        layer,
        spot: { profile: "flat-top", radius: wide },
        energy: fluence * Math.PI * wide * wide,
        duration,
        startTemperature: 293.15,
      },
      { cells: 6, steps: 20 },
    );
    const column = solveColumn({
      layers: [{ ...layer, decomposition: null, ablationTemperature: null, ablationHeat: null }],
      metal: steel,
      light: (grid) => ({
        layerShares: Float64Array.from(
          { length: grid.layerCount },
          (_, i) => Math.exp(-1e5 * grid.edges[i]) - Math.exp(-1e5 * grid.edges[i + 1]),
        ),
        metalShare: Math.exp(-0.5),
      }),
      pulse: { fluence, duration, shape: "square" },
      startTemperature: 293.15,
      endTime: 2.5 * duration,
    });
    expect(Math.abs(read.surfaceRise / (column.metalSurfacePeak - 293.15) - 1)).toBeLessThan(0.02);
    expect(Math.abs(read.energyRatio - 1)).toBeLessThan(1e-3);
  });
});

describe("fast model before the referee", () => {
  it("holds 5 % on the peak and 15 % on the melt of moving spots, which the column alone does not", () => {
    for (const sample of [aluminium, steel]) {
      const judge = judgeOf(sample, 293.15, { cells: 5 });
      const judged = judge.line(0.1e-3, 1, 2);
      expect(peakAgrees(judged.referee, judged.fast)).toBe(true);
      expect(meltAgrees(judged.referee, judged.fast)).toBe(true);
      expect(meltAgrees(judged.referee, judged.columnOnly)).toBe(false);
    }
  });
});
