import { describe, expect, it } from "vitest";
import { absorbedLight, type ColumnSpec, solveColumn } from "#heat";
import { bareLight, plainLayer, plainMetal, square } from "./columns.ts";

/** Round figures, so that a boiling front is reached and is steady soon. */
const boils = plainMetal([50, 5000, 500], 1e-3, {
  meltingTemperature: 1000,
  latentHeatMelting: 2e5,
  boilingTemperature: 2000,
  latentHeatBoiling: 2e6,
});
/** J/m³ to take the metal from 300 K to vapour at its boiling point */
const toVapour = 5000 * (500 * 1700 + 2e5 + 2e6);

describe("boiling with recession", () => {
  const flux = 5e11;
  const run = (time: number, more: Partial<ColumnSpec> = {}) =>
    solveColumn({
      layers: [],
      metal: boils,
      light: bareLight,
      pulse: square(flux * time, time),
      startTemperature: 300,
      endTime: time,
      grid: { metalCells: 300, metalFirstCell: 5e-8, metalDepth: 20e-6 },
      ...more,
    });

  it("goes down at the steady speed q/(ρ·(c·ΔT + L)) (Landau, Q. Appl. Math. 8 (1950) 81), to 0.5 %", () => {
    const deep = { grid: { metalCells: 400, metalFirstCell: 5e-8, metalDepth: 60e-6 } };
    const speed = (run(6e-7, deep).recession - run(4e-7, deep).recession) / 2e-7;
    expect(Math.abs(speed / (flux / toVapour) - 1)).toBeLessThan(5e-3);
  });

  it("books what the vapour carries: recession times the heat to vapour, and the rest is in the metal", () => {
    const { recession, energy, energyBalanceError, boiledDepth, meltDepth } = run(4e-7);
    expect(Math.abs(energy.carried / (recession * toVapour) - 1)).toBeLessThan(1e-9);
    expect(energyBalanceError).toBeLessThan(1e-6);
    expect(energy.absorbed).toBeCloseTo(flux * 4e-7, 6);
    expect(Math.abs((energy.stored + energy.carried) / energy.absorbed - 1)).toBeLessThan(1e-6);
    expect(recession).toBeGreaterThan(5e-6);
    expect(boiledDepth).toBeGreaterThanOrEqual(recession);
    expect(meltDepth).toBeGreaterThan(boiledDepth);
  });

  it("is no hotter than its boiling point, and hotter when nothing may leave", () => {
    expect(run(2e-7).metalSurfacePeak).toBeCloseTo(2000, 6);
    const stays = run(2e-7, { recession: false });
    expect(stays.metalSurfacePeak).toBeGreaterThan(2100);
    expect(stays.recession).toBe(0);
    expect(stays.energy.carried).toBe(0);
  });

  it("does not depend on the cells: the default grid gives the same recession to 1.5 %, the same melt depth to 3 %", () => {
    const [usual, fine] = [run(1e-7, { grid: {}, endTime: 3e-7 }), run(1e-7, { endTime: 3e-7 })];
    expect(Math.abs(usual.recession / fine.recession - 1)).toBeLessThan(0.015);
    expect(Math.abs(usual.meltDepth / fine.meltDepth - 1)).toBeLessThan(0.03);
    // Vapour does not come back after the pulse.
    expect(Math.abs(run(1e-7).recession / fine.recession - 1)).toBeLessThan(0.01);
  });
});

describe("a layer that ablates", () => {
  const film = plainLayer([0.01, 1500, 1400], 20e-6, { ablationTemperature: 1000, ablationHeat: 2e6 });
  const metal = plainMetal([50, 7850, 480], 1e-3);
  const flux = 1e11;
  const run = (time: number, more: Partial<ColumnSpec> = {}) =>
    solveColumn({
      layers: [film],
      metal,
      light: absorbedLight([film], [1e6], 0.1, 0.3),
      lightStep: 1e-7,
      pulse: square(flux * time, time),
      startTemperature: 300,
      endTime: time,
      grid: { layerCells: 200, layerFirstCell: 1e-7 },
      ...more,
    });

  it("goes down by (t − t₀)·I/H once the surface has taken H at t₀ = H/(αI), to 0.2 µm, on finer cells 0.12 µm; own derivation, no conduction", () => {
    const heat = 1500 * (1400 * 700 + 2e6);
    const depth = (time: number) => (0.9 * flux * time) / heat - 1e-6;
    for (const time of [1e-7, 2e-7, 4e-7]) {
      const { recession, energyBalanceError, lightUpdates } = run(time);
      expect(Math.abs(recession - depth(time))).toBeLessThan(2e-7);
      expect(energyBalanceError).toBeLessThan(1e-6);
      expect(lightUpdates).toBeGreaterThan(1);
      const fine = run(time, { grid: { layerCells: 800, layerFirstCell: 2.5e-8 }, lightStep: 2e-8 });
      expect(Math.abs(fine.recession - depth(time))).toBeLessThan(1.2e-7);
    }
  });

  it("gone altogether, leaves the metal its absorptance of the light", () => {
    const thin = { ...film, thickness: 1e-6 };
    const spec = { layers: [thin], light: absorbedLight([thin], [1e6], 0.1, 0.3) };
    const [a, b] = [run(2e-7, spec), run(3e-7, spec)];
    expect(a.goneCells).toBe(200);
    expect(a.recession).toBeCloseTo(1e-6, 12);
    expect([...a.ablated].every((x) => x === 1)).toBe(true);
    expect(Math.abs((b.energy.absorbed - a.energy.absorbed) / (0.9 * 0.3 * flux * 1e-7) - 1)).toBeLessThan(5e-3);
    expect(b.energyBalanceError).toBeLessThan(1e-6);
  });

  it("is thrown off whole when metal boils below it", () => {
    const clear = plainLayer([0.2, 1200, 1500], 5e-6);
    const under = (fluence: number) =>
      solveColumn({
        layers: [clear],
        metal: boils,
        light: (grid) => ({ layerShares: new Float64Array(grid.layerCount), metalShare: 1 }),
        pulse: square(fluence, 1e-7),
        startTemperature: 300,
        endTime: 2e-7,
      });
    const [below, above] = [under(2e3), under(3e4)];
    expect(below.goneCells).toBe(0);
    expect(below.metalSurfacePeak).toBeLessThan(2000);
    expect(above.goneCells).toBeGreaterThanOrEqual(above.grid.layerCount);
    expect(above.recession).toBeGreaterThan(5e-6);
    expect(above.energyBalanceError).toBeLessThan(1e-6);
  });
});
