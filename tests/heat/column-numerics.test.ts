import { describe, expect, it } from "vitest";
import { absorbedLight, type ColumnPulse, type ColumnSpec, solveColumn } from "#heat";
import { createRandom } from "#numerics";
import { bareLight, beerLambert, plainLayer, plainMetal, square, steel, tableOf } from "./columns.ts";

const acrylic = { preExponential: 8.5e12, activationEnergy: 188e3, heat: 8e5 };

describe("order of convergence", () => {
  const thickness = 1e-4;
  const diffusivity = 50 / (7850 * 480);
  /** Amplitude left of the first cosine mode of an insulated slab after one time constant `time`, solved. */
  const modeLeft = (cells: number, steps: number, time: number): number => {
    const shape = (i: number) => Math.cos((Math.PI * (i + 0.5)) / cells);
    const result = solveColumn({
      layers: [],
      metal: plainMetal([50, 7850, 480], thickness),
      light: bareLight,
      pulse: square(0, time),
      startTemperature: 400,
      endTime: time,
      grid: { metalCells: cells, metalFirstCell: thickness / cells, metalDepth: thickness },
      startProfile: Float64Array.from({ length: cells }, (_, i) => 500 + 100 * shape(i)),
      steps: { fixedStep: time / steps },
    });
    return (result.finalTemperature[0]! - 500) / (100 * shape(0));
  };

  it("is 2 in space: a cosine mode decays as exp(−π²Dt/l²)", () => {
    const time = (thickness * thickness) / (Math.PI ** 2 * diffusivity);
    const errors = [10, 20, 40].map((cells) => Math.abs(modeLeft(cells, 1000, time) - Math.exp(-1)));
    expect(Math.log2(errors[0]! / errors[1]!)).toBeGreaterThan(1.9);
    expect(Math.log2(errors[1]! / errors[2]!)).toBeGreaterThan(1.9);
  });

  it("is 2 in time: the same mode on a grid whose own decay is known", () => {
    const cells = 50;
    const time = (thickness / cells) ** 2 / (4 * diffusivity * Math.sin(Math.PI / (2 * cells)) ** 2);
    const errors = [8, 16, 32].map((steps) => Math.abs(modeLeft(cells, steps, time) - Math.exp(-1)));
    expect(Math.log2(errors[0]! / errors[1]!)).toBeGreaterThan(1.9);
    expect(Math.log2(errors[1]! / errors[2]!)).toBeGreaterThan(1.9);
  });

  it("stays 2 in space and time through a layer, a graded grid and a Gaussian pulse", () => {
    const contact = (finer: number, steps: number) =>
      solveColumn({
        layers: [plainLayer([0.3, 1400, 1500], 20e-6)],
        metal: plainMetal([50, 7850, 480], 1e-3),
        light: beerLambert(0.5, 4e4, 0.2),
        pulse: { fluence: 3e4, duration: 1e-6, shape: "gaussian" },
        startTemperature: 300,
        endTime: 3e-6,
        grid: {
          layerCells: 12 * finer,
          metalCells: 24 * finer,
          layerFirstCell: 4e-7 / finer,
          metalFirstCell: 4e-7 / finer,
          metalDepth: 60e-6,
        },
        steps: { fixedStep: 3e-6 / steps },
      }).interfaceTemperature.at(-1)!;
    const order = (values: number[]) => Math.log2((values[1]! - values[0]!) / (values[2]! - values[1]!));
    expect(order([4, 8, 16].map((finer) => contact(finer, 400)))).toBeGreaterThan(1.9);
    expect(order([20, 40, 80].map((steps) => contact(1, steps)))).toBeGreaterThan(1.9);
  });
});

describe("what holds for any column", () => {
  const random = createRandom(77);
  const between = (low: number, high: number) => low * (high / low) ** random.next();
  const tablePulse = (fluence: number, duration: number): ColumnPulse => ({
    fluence,
    duration,
    shape: { time: Float64Array.of(0, 0.3 * duration, 2 * duration), power: Float64Array.of(0, 1, 0) },
  });
  const sloped = tableOf(
    [300, 900, 1500],
    (t) => 0.3 + t * 2e-4,
    (t) => 1200 + 0.4 * t,
  );
  const cases: ColumnSpec[] = Array.from({ length: 120 }, (_, i) => {
    const duration = between(1e-9, 10);
    const fluence = between(0.05, 30) * 1e4 * Math.sqrt(duration / 1e-7);
    const shape = i % 3;
    const layers = [
      plainLayer([0.3, 1400, 1500], between(2e-6, 100e-6), {
        decomposition: i % 2 ? acrylic : null,
        char: i % 5 < 3 ? { fraction: 0.25 * (i % 5), absorption: 3e5, conductivity: 0.15, heatCapacity: 1100 } : null,
        table: i % 7 === 0 ? sloped : null,
      }),
      plainLayer([3, 5200, 650], between(1e-6, 30e-6), { ablationTemperature: 1900, ablationHeat: 6e5 }),
    ].slice(0, i % 4 === 0 ? 0 : 1 + (i % 2));
    const absorption = between(1e3, 1e6);
    const follows = i % 8 > 3;
    return {
      layers: i % 16 === 15 ? layers.reverse() : layers,
      metal: steel,
      light: follows
        ? absorbedLight(
            layers,
            layers.map(() => absorption),
            0.4,
            0.35,
          )
        : beerLambert(0.6, absorption, i % 4 === 0 ? 0.4 : 0.2),
      ...(follows ? { lightStep: 1e-6 } : {}),
      pulse:
        shape === 0
          ? square(fluence, duration)
          : shape === 1
            ? { fluence, duration, shape: "gaussian" }
            : tablePulse(fluence, duration),
      startTemperature: between(250, 900),
      endTime: duration * between(3.5, 100),
      recession: i % 11 !== 10,
    };
  });

  it("keeps its energy to 0.1 %, whatever leaves, finds numbers everywhere, and never falls below the start", () => {
    const seen = { melted: 0, boiled: 0, ablated: 0, decomposed: 0, receded: 0, gas: 0, relit: 0 };
    for (const spec of cases) {
      const result = solveColumn(spec);
      const { energy } = result;
      expect(result.energyBalanceError).toBeLessThan(1e-3);
      expect(Math.abs(energy.stored + energy.reaction + energy.carried - energy.absorbed)).toBeLessThan(
        1e-3 * energy.absorbed,
      );
      const lowest = Math.min(...result.interfaceTemperature, ...result.finalTemperature);
      // Decomposition takes up heat: it may cool a hot start.
      const cools = spec.layers.some((layer) => layer.decomposition !== null);
      if (!cools) expect(lowest).toBeGreaterThan(spec.startTemperature - 1e-3);
      for (const x of [...result.conversion, ...result.ablated]) {
        expect(x).toBeGreaterThanOrEqual(0);
        expect(x).toBeLessThanOrEqual(1);
      }
      expect(result.metalSurfacePeak).toBe(Math.max(...result.interfaceTemperature));
      expect(Number.isFinite(result.topPeak) && Number.isFinite(result.recession)).toBe(true);
      if (spec.recession === false) expect(result.recession).toBe(0);
      if (result.meltDepth > 0) seen.melted++;
      if (result.boiledDepth > 0) seen.boiled++;
      if (result.ablated.some((x) => x > 0)) seen.ablated++;
      if (result.conversion.some((x) => x > 0.5)) seen.decomposed++;
      if (result.recession > 0) seen.receded++;
      if (energy.carried > 0 && result.recession === 0) seen.gas++;
      if (result.lightUpdates > 1) seen.relit++;
    }
    // The set would prove little if nothing happened in it.
    expect(Math.min(...Object.values(seen))).toBeGreaterThan(5);
  });

  it("agrees with itself at a hundred times finer steps: peak to 0.5 %, melt depth to 2 % or 5 nm", () => {
    for (const fluence of [4e3, 8e3, 1e4]) {
      for (const shape of ["square", "gaussian"] as const) {
        const spec: ColumnSpec = {
          layers: [],
          metal: steel,
          light: bareLight,
          pulse: { fluence, duration: 1e-7, shape },
          startTemperature: 293,
          endTime: 4e-7,
        };
        const usual = solveColumn(spec);
        const fine = solveColumn({
          ...spec,
          grid: { metalCells: 300, metalFirstCell: 1e-8 },
          steps: { absoluteTolerance: 0.05, relativeTolerance: 2e-4, minimumStep: 1e-11 },
        });
        expect(Math.abs(usual.metalSurfacePeak / fine.metalSurfacePeak - 1)).toBeLessThan(5e-3);
        expect(Math.abs(usual.meltDepth - fine.meltDepth)).toBeLessThan(Math.max(5e-9, 0.02 * fine.meltDepth));
      }
    }
  });

  it("counts the time above a threshold as the history has it", () => {
    const result = solveColumn({ ...cases[1]!, startTemperature: 300, thresholds: [320, 1e6, 200] });
    const { interfaceTime: time, interfaceTemperature: kelvin } = result;
    let above = 0;
    const samples = 200_000;
    const end = time.at(-1)!;
    for (let i = 0, k = 0; i < samples; i++) {
      const t = ((i + 0.5) / samples) * end;
      while (time[k + 1]! < t) k++;
      const share = (t - time[k]!) / (time[k + 1]! - time[k]!);
      if (kelvin[k]! + share * (kelvin[k + 1]! - kelvin[k]!) > 320) above += end / samples;
    }
    expect(above).toBeGreaterThan(0);
    expect(Math.abs(result.timeAbove[0]! / above - 1)).toBeLessThan(1e-4);
    expect(result.timeAbove[1]).toBe(0);
    expect(Math.abs(result.timeAbove[2]! / end - 1)).toBeLessThan(1e-12);
  });
});

describe("refusals", () => {
  const spec: ColumnSpec = {
    layers: [],
    metal: steel,
    light: bareLight,
    pulse: square(1e4, 1e-7),
    startTemperature: 293,
    endTime: 1e-6,
  };
  it.each([
    [{ startTemperature: 0 }, "invalid start temperature: 0 K (must be above 0)"],
    [{ endTime: Number.NaN }, "invalid end time: not a number s (must be a finite number)"],
    [{ pulse: square(-1, 1e-7) }, "invalid fluence: -1 J/m² (must be 0 or above)"],
    [
      { light: { layerShares: new Float64Array(0), metalShare: 1.2 } },
      "invalid shares of light: 1.2 (must add up to at most 1)",
    ],
    [
      { light: { layerShares: new Float64Array(3), metalShare: 0 } },
      "invalid layer shares: 3 values (must be one per layer cell, 0)",
    ],
    [
      { metal: { ...steel, boilingTemperature: 1000 } },
      "invalid boiling temperature: 1000 K (must be above the melting temperature)",
    ],
    [{ layers: [plainLayer([0.3, 1400, 1500], 0)] }, "invalid layer thickness: 0 m (must be above 0)"],
    [{ layers: [plainLayer([0.3, 1400, 1500], 1)] }, "invalid layer thickness: 1 m (must be at most 0.1 m)"],
    [
      { metal: { ...steel, temperature: Float64Array.of(300, 1000, 900, 3000) } },
      "invalid metal table: 900 K (temperatures must ascend)",
    ],
    [
      { metal: { ...steel, conductivity: Float64Array.of(50, -30, 32, 35) } },
      "invalid conductivity: -30 W/(m·K) (must be above 0)",
    ],
    [
      { metal: { ...steel, heatCapacity: Float64Array.of(460, 700, 800) } },
      "invalid metal table: 4 points (temperature, conductivity and heat capacity must have the same length, above 0)",
    ],
    [
      {
        layers: [
          plainLayer([0.3, 1400, 1500], 1e-5, {
            table: tableOf(
              [300, 300],
              () => 1,
              () => 1,
            ),
          }),
        ],
      },
      "invalid layer table: 300 K (temperatures must ascend)",
    ],
    [
      {
        layers: [
          plainLayer([0.3, 1400, 1500], 1e-5, {
            table: tableOf(
              [300, 400],
              () => 1,
              (t) => 350 - t,
            ),
          }),
        ],
      },
      "invalid heat capacity: -50 J/(kg·K) (must be above 0)",
    ],
    [
      {
        layers: [
          plainLayer([0.3, 1400, 1500], 1e-5, {
            char: { fraction: 1.5, absorption: 1, conductivity: 1, heatCapacity: 1 },
          }),
        ],
      },
      "invalid char fraction: 1.5 (must be 0 to 1)",
    ],
    [{ metal: { ...steel, meltingTemperature: Number.NaN } }, "invalid melting temperature: not a number K"],
  ] as [Partial<ColumnSpec>, string][])("%j", (change, message) => {
    expect(() => solveColumn({ ...spec, ...change })).toThrow(message);
  });
});
