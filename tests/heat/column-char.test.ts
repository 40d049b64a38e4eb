import { describe, expect, it } from "vitest";
import { absorbedLight, type ColumnSpec, halfSpaceFluxRise, solveColumn } from "#heat";
import { fineSteps, plainLayer, plainMetal, square, tableOf } from "./columns.ts";

const metal = plainMetal([50, 7850, 480], 1e-3);
/** Decomposes at once at any temperature, without heat of reaction. */
const instant = { preExponential: 1e18, activationEnergy: 1, heat: 0 };
const char = { fraction: 0.3, absorption: 1e6, conductivity: 0.9, heatCapacity: 900 };

describe("char", () => {
  const layer = plainLayer([0.3, 1300, 1500], 30e-6, { decomposition: instant, char });
  const heated = (layers: ColumnSpec["layers"]) =>
    solveColumn({
      layers,
      metal,
      light: (grid) => ({ layerShares: new Float64Array(grid.layerCount), metalShare: 0, topShare: 1 }),
      pulse: square(1e3, 1e-4),
      startTemperature: 300,
      endTime: 2e-4,
      steps: fineSteps,
    });

  it("conducts and stores as a layer of its own conductivity, heat capacity and the mass that is left", () => {
    const [charred, plain] = [heated([layer]), heated([plainLayer([0.9, 0.3 * 1300, 900], 30e-6)])];
    expect(charred.conversion[0]).toBeCloseTo(1, 12);
    expect(Math.abs((charred.topPeak - 300) / (plain.topPeak - 300) - 1)).toBeLessThan(1e-3);
    expect(Math.abs((charred.interfacePeak - 300) / (plain.interfacePeak - 300) - 1)).toBeLessThan(2e-3);
    // It left cold, before the light came.
    expect(Math.abs(charred.energy.carried)).toBeLessThan(1e-3 * charred.energy.absorbed);
  });

  it("lets hot gas take its heat along: at one temperature, by the mass that leaves", () => {
    // Light in all cells alike, nothing conducted: T rises by F/(ρ·c·l) before half of it has decomposed.
    const hot = plainLayer([1e-6, 1300, 1500], 100e-6, {
      decomposition: { preExponential: 8.5e12, activationEnergy: 188e3, heat: 5e5 },
      char: { ...char, conductivity: 1e-6 },
    });
    const run = (steps: ColumnSpec["steps"]) =>
      solveColumn({
        layers: [hot],
        metal,
        light: (grid) => ({
          layerShares: Float64Array.from(
            { length: grid.layerCount },
            (_, i) => (grid.edges[i + 1]! - grid.edges[i]!) / 100e-6,
          ),
          metalShare: 0,
        }),
        pulse: square(2000 * 1300 * 1500 * 100e-6, 1e-6),
        startTemperature: 300,
        endTime: 2e-6,
        steps,
      });
    const { energy, energyBalanceError, conversion, finalTemperature } = run({ ...fineSteps, maximumStep: 1e-9 });
    expect(conversion[12]).toBeGreaterThan(0.99);
    expect(energyBalanceError).toBeLessThan(1e-6);
    // Own derivation: dE = ρ·(s·c·dT + Q·dX), s = 1 − X·(1 − f·c_char/c), with dX/dt of Arrhenius, in small steps of time.
    const [a, c, q] = [1 - (0.3 * 900) / 1500, 1500, 5e5];
    let [kelvin, x, carried] = [300, 0, 0];
    const steps = 400_000;
    const dt = 2e-6 / steps;
    for (let i = 0; i < steps; i++) {
      const dx = (1 - x) * -Math.expm1(-8.5e12 * Math.exp(-188e3 / (8.314462618 * kelvin)) * dt);
      kelvin += ((i < steps / 2 ? (2000 * c) / (steps / 2) : 0) - q * dx) / (c * (1 - a * x));
      x += dx;
      carried += 1300 * c * a * dx * (kelvin - 300) * 100e-6;
    }
    expect(Math.abs(finalTemperature[12]! / kelvin - 1)).toBeLessThan(3e-3);
    expect(Math.abs(energy.carried / carried - 1)).toBeLessThan(3e-3);
    expect(Math.abs(run({}).energy.carried / carried - 1)).toBeLessThan(0.03);
  });

  it("takes light by its own absorption, asked again as it forms", () => {
    const dim = { ...layer, char: { ...char, absorption: 3e4 } };
    const lit = (lightStep: number | undefined) =>
      solveColumn({
        layers: [dim],
        metal,
        light: absorbedLight([dim], [1e4], 0.04, 0.5),
        ...(lightStep === undefined ? {} : { lightStep }),
        pulse: square(1e3, 1e-6),
        startTemperature: 300,
        endTime: 2e-6,
      });
    const absorbed = (alpha: number) => 0.96e3 * (1 - 0.5 * Math.exp(-alpha * 30e-6));
    expect(Math.abs(lit(undefined).energy.absorbed / absorbed(1e4) - 1)).toBeLessThan(1e-9);
    expect(lit(undefined).lightUpdates).toBe(0);
    // All but the first step falls on char.
    const followed = lit(1e-6);
    expect(Math.abs(followed.energy.absorbed / absorbed(3e4) - 1)).toBeLessThan(5e-3);
    expect(followed.lightUpdates).toBe(1);
    expect(followed.energyBalanceError).toBeLessThan(1e-6);
  });

  it("of no mass leaves from the top, and light and surface move on", () => {
    const bare = plainLayer([0.3, 1300, 1500], 30e-6, { decomposition: instant, char: { ...char, fraction: 0 } });
    const result = heated([bare]);
    expect(result.goneCells).toBe(result.grid.layerCount);
    expect(result.recession).toBeCloseTo(30e-6, 12);
    const metalOnly = { conductivity: 50, density: 7850, heatCapacity: 480 };
    expect(Math.abs((result.metalSurfacePeak - 300) / halfSpaceFluxRise(metalOnly, 1e7, 0, 1e-4) - 1)).toBeLessThan(
      0.01,
    );
  });
});

describe("properties of temperature", () => {
  // With k and c both (1 + β·ΔT) times their cold value, U = ΔT + β·ΔT²/2 obeys the linear equation (Carslaw & Jaeger 2.16).
  const beta = 1e-3;
  const points = Array.from({ length: 81 }, (_, i) => 300 + 25 * i);
  const factor = (kelvin: number) => 1 + beta * (kelvin - 300);
  const flux = 4e8;
  const time = 1e-4;

  it.each(["layer", "metal"])("of a %s by Kirchhoff's transform, to 0.1 %", (where) => {
    const table = tableOf(
      points,
      (t) => 2 * factor(t),
      (t) => 800 * factor(t),
    );
    const result = solveColumn({
      layers: where === "layer" ? [plainLayer([2, 3000, 800], 1e-3, { table })] : [],
      metal: where === "layer" ? metal : { ...plainMetal([2, 3000, 800], 1e-3), ...table },
      light: (grid) => ({ layerShares: new Float64Array(grid.layerCount), metalShare: 0, topShare: 1 }),
      pulse: square(flux * time, time),
      startTemperature: 300,
      endTime: time,
      grid: { layerCells: 300, layerFirstCell: 1e-7, metalCells: 200, metalFirstCell: 1e-7 },
      steps: fineSteps,
    });
    const cold = { conductivity: 2, density: 3000, heatCapacity: 800 };
    for (const i of [0, 30, 60]) {
      const depth = 0.5 * (result.grid.edges[i]! + result.grid.edges[i + 1]!);
      const rise = result.finalTemperature[i]! - 300;
      expect(rise).toBeGreaterThan(100);
      const linear = halfSpaceFluxRise(cold, flux, depth, time);
      expect(Math.abs((rise + (beta * rise * rise) / 2) / linear - 1)).toBeLessThan(1e-3);
    }
  });
});
