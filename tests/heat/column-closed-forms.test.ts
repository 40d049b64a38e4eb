import { describe, expect, it } from "vitest";
import {
  type ColumnMetal,
  plateDepthRise,
  pulseTrainRise,
  solveColumn,
  stefanFront,
  stefanOnePhase,
  stefanTwoPhase,
} from "#heat";
import { bareLight, beerLambert, fineSteps, finalAt, plainLayer, plainMetal, square } from "./columns.ts";

// Values: closed forms of Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. (2.9, 2.11, 3.8, 12.8, 11.2),
// as pinned in closed-forms.test.ts.
const steel = [50, 7850, 480] as const;

/** Relative difference of a rise above 300 K from the value of the closed form. */
function off(kelvin: number, rise: number): number {
  return Math.abs((kelvin - 300) / rise - 1);
}

describe("column against closed forms", () => {
  it.each([
    [1e-7, 2599.648, 1074.604, 345.307],
    [2e-7, 1076.81, null, null],
    [1e-6, 421.865, null, null],
  ])("constant flux on bare metal at %d s, at 0, 1 and 2 µm, to 1e-4", (time, surface, one, two) => {
    const result = solveColumn({
      layers: [],
      metal: plainMetal(steel, 1e-3),
      light: bareLight,
      pulse: square(1e4, 1e-7),
      startTemperature: 300,
      endTime: time,
      grid: { metalCells: 400, metalFirstCell: 5e-9 },
      steps: fineSteps,
    });
    expect(off(result.interfaceTemperature.at(-1)!, surface)).toBeLessThan(1e-4);
    expect(off(result.metalSurfacePeak, 2599.648)).toBeLessThan(1e-4);
    if (one !== null) expect(off(finalAt(result, 1e-6), one)).toBeLessThan(1e-4);
    if (two !== null) expect(off(finalAt(result, 2e-6), two)).toBeLessThan(1e-4);
  });

  it("the same with the default grid and steps, to 0.3 %", () => {
    const result = solveColumn({
      layers: [],
      metal: plainMetal(steel, 1e-3),
      light: bareLight,
      pulse: square(1e4, 1e-7),
      startTemperature: 300,
      endTime: 1e-6,
    });
    expect(off(result.metalSurfacePeak, 2599.648)).toBeLessThan(3e-3);
    expect(off(result.interfaceTemperature.at(-1)!, 421.865)).toBeLessThan(1e-3);
  });

  it.each([
    [1e11, 1e5, 1e-7, 300e-6, 2e-8, 508.0748, 5e-6, 311.0653],
    [2e5, 2e4, 0.5, 8e-3, 2e-6, 178.6418, 2e-4, 104.186],
  ])(
    "light absorbed in depth, I = %d, alpha = %d, t = %d, to 1e-4",
    (flux, alpha, time, thickness, first, top, z, deep) => {
      const result = solveColumn({
        layers: [plainLayer([0.3, 1300, 1500], thickness)],
        metal: plainMetal(steel, 1e-3),
        light: beerLambert(1, alpha, 0),
        pulse: square(flux * time, time),
        startTemperature: 300,
        endTime: time,
        grid: { layerCells: 600, metalCells: 10, layerFirstCell: first },
        steps: fineSteps,
      });
      expect(off(finalAt(result, 0), top)).toBeLessThan(1e-4);
      expect(off(finalAt(result, z), deep)).toBeLessThan(1e-4);
    },
  );

  it.each([
    [0.01, 56.61628, 13.46837],
    [0.1, 305.51331, 260.60313],
  ])("slab with insulated back at %d s, both faces to 1e-4", (time, front, back) => {
    const result = solveColumn({
      layers: [],
      metal: plainMetal([167, 2700, 896], 1.5e-3),
      light: bareLight,
      pulse: square(1e7 * time, time),
      startTemperature: 300,
      endTime: time,
      grid: { metalCells: 200, metalFirstCell: 7.5e-6, metalDepth: 1.5e-3 },
      steps: { ...fineSteps, maximumStep: time / 500 },
    });
    expect(off(result.metalSurfacePeak, front)).toBeLessThan(1e-4);
    expect(off(finalAt(result, 1.5e-3), back)).toBeLessThan(1e-4);
  });

  it.each([
    [[0.3, 1300, 1500] as const, 50e-6, 1e6, 0.01, 138.1736, 3.8741],
    [[3.5, 5170, 650] as const, 1e-6, 5e10, 1e-7, 5202.205, 26.135],
  ])("film %j on steel, both faces to 1e-4", (film, thickness, flux, time, surface, contact) => {
    const result = solveColumn({
      layers: [plainLayer(film, thickness)],
      metal: plainMetal(steel, 10e-3),
      light: (grid) => ({ layerShares: new Float64Array(grid.layerCount), metalShare: 0, topShare: 1 }),
      pulse: square(flux * time, time),
      startTemperature: 300,
      endTime: time,
      grid: { layerCells: 400, metalCells: 300, metalFirstCell: thickness / 400, layerFirstCell: thickness / 400 },
      steps: { ...fineSteps, maximumStep: time / 1000 },
    });
    expect(off(result.topPeak, surface)).toBeLessThan(1e-4);
    expect(off(result.interfacePeak, contact)).toBeLessThan(1e-4);
  });
});

describe("column against the plate model, one pulse of a wide beam on a plate of constant properties", () => {
  const body = { conductivity: 50, volumetricHeat: 7850 * 480, plateThickness: 1e-3 };
  const pulse = 1e-6;
  const solved = (time: number) =>
    solveColumn({
      layers: [],
      metal: plainMetal(steel, 1e-3),
      light: bareLight,
      pulse: square(1e5, pulse),
      startTemperature: 300,
      endTime: time,
      grid: { metalCells: 200, metalFirstCell: 1e-6, metalDepth: 1e-3 },
    });

  it.each([1e-3, 1e-2, 0.1])(
    "%d s after it: surface and back to 0.2 %, pulses of the same heat at one point",
    (time) => {
      // The plate takes the pulse as instantaneous in the middle of its time; the beam is 100 mm wide, so that the energy
      // of its Gaussian that gives 1e5 J/m² on the axis is F·π·w²/2.
      const result = solved(time);
      const age = time - pulse / 2;
      const train = { x: Float64Array.of(0), y: Float64Array.of(0), time: Float64Array.of(0) };
      const radius = 0.1;
      const surface = pulseTrainRise(body, (1e5 * Math.PI * radius * radius) / 2, radius, train, 0, 0, age);
      expect(off(result.interfaceTemperature.at(-1)!, surface)).toBeLessThan(2e-3);
      const back = 1e5 * plateDepthRise(body, 1e-3, age);
      if (back > 0.1) expect(off(finalAt(result, 1e-3), back)).toBeLessThan(2e-3);
    },
  );
});

/** A layer that stays at its temperature whatever flows into it: the wall of a Stefan problem. */
const wall = plainLayer([1e6, 1e6, 1e6], 1e-6);

describe("column against Stefan's fronts, cells of 10 nm", () => {
  const cells = 300;
  const run = (metal: ColumnMetal, wallTemperature: number, start: number, time: number) =>
    solveColumn({
      layers: [wall],
      metal,
      light: { layerShares: new Float64Array(2), metalShare: 0 },
      pulse: square(0, time / 10),
      startTemperature: Math.min(start, wallTemperature),
      endTime: time,
      grid: { layerCells: 2, metalCells: cells, metalFirstCell: 1e-8, metalDepth: 8e-6 },
      startProfile: new Float64Array(cells + 2).fill(start).fill(wallTemperature, 0, 2),
    });

  it("melting of a metal at its melting point, within 0.2 %", () => {
    const lambda = stefanOnePhase(1);
    const time = (1e-6 / (2 * lambda)) ** 2 / 4e-5;
    const metal = plainMetal([100, 2500, 1000], 1e-3, {
      meltingTemperature: 900,
      latentHeatMelting: 4e5,
      boilingTemperature: 3000,
      latentHeatBoiling: 1e6,
    });
    const result = run(metal, 1300, 899.999999, time);
    expect(Math.abs(result.meltDepth / stefanFront(lambda, 4e-5, time) - 1)).toBeLessThan(2e-3);
  });

  it("freezing of a hotter melt with other properties, within 1 %", () => {
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
    const diffusivity = 210 / (2550 * 1060);
    const time = (1e-6 / (2 * lambda)) ** 2 / diffusivity;
    const metal = plainMetal([210, 2550, 1060], 1e-3, {
      temperature: Float64Array.of(300, 933.4999, 933.5),
      conductivity: Float64Array.of(210, 210, 93),
      heatCapacity: Float64Array.of(1060, 1060, 1080),
      meltingTemperature: 933.5,
      latentHeatMelting: 397e3,
      boilingTemperature: 2700,
      latentHeatBoiling: 1e7,
    });
    const result = run(metal, 333.5, 1033.5, time);
    let solidDepth = 0;
    for (let i = 2; i < result.grid.count; i++) {
      if (result.finalTemperature[i]! < 933.49) solidDepth += result.grid.edges[i + 1]! - result.grid.edges[i]!;
    }
    expect(Math.abs(solidDepth / 1e-6 - 1)).toBeLessThan(0.01);
  });
});
