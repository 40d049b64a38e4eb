import { describe, expect, it } from "vitest";
import { logRateConstant, reactionAdvance, solveColumn } from "#heat";
import { findRoot, integrate } from "#numerics";
import { plainLayer, plainMetal, square } from "./columns.ts";

// Acrylic kinetics: 188 kJ/mol, 8.5e12 1/s (Stoliarov et al. 2009, from memory).
const acrylic = { preExponential: 8.5e12, activationEnergy: 188e3, heat: 0 };
const activation = 188e3 / 8.314462618;
const rate = (kelvin: number) => 8.5e12 * Math.exp(-activation / kelvin);

describe("Arrhenius decomposition", () => {
  it.each([
    [60, 668],
    [1e-3, 989],
    [1e-7, 1656],
  ])("63 percent conversion: %d s, its temperature (closed form)", (time, kelvin) => {
    const found = findRoot((t) => logRateConstant(Math.log(8.5e12), activation, t) + Math.log(time), 300, 3000);
    expect(Math.abs(found - kelvin)).toBeLessThan(1);
  });

  it.each([60, 1e-3, 1e-7])("in a column held at that temperature for %d s", (time) => {
    const kelvin = activation / Math.log(8.5e12 * time);
    const result = solveColumn({
      layers: [plainLayer([0.3, 1300, 1500], 10e-6, { decomposition: acrylic })],
      metal: plainMetal([50, 7850, 480], 1e-3),
      light: (grid) => ({ layerShares: new Float64Array(grid.layerCount), metalShare: 0 }),
      pulse: square(0, time),
      startTemperature: kelvin,
      endTime: time,
    });
    for (const x of result.conversion) expect(Math.abs(x - (1 - Math.exp(-1)))).toBeLessThan(1e-6);
  });

  it("in a layer heated at a constant rate, to 0.2 % of the integral of the rate", () => {
    // Light spread evenly and a layer too thick to lose it: every cell heats by the same rate.
    const thickness = 10e-3;
    const time = 1e-3;
    const heating = 900 / time;
    const result = solveColumn({
      layers: [plainLayer([1e-6, 1300, 1500], thickness, { decomposition: acrylic })],
      metal: plainMetal([50, 7850, 480], 1e-3),
      light: (grid) => ({
        layerShares: Float64Array.from(
          { length: grid.layerCount },
          (_, i) => (grid.edges[i + 1]! - grid.edges[i]!) / thickness,
        ),
        metalShare: 0,
      }),
      pulse: square(heating * time * 1300 * 1500 * thickness, time),
      startTemperature: 300,
      endTime: time,
    });
    const advance = integrate((t) => rate(300 + heating * t), 0, time);
    expect(advance).toBeGreaterThan(0.5);
    const middle = result.conversion[12]!;
    expect(Math.abs(-Math.log(1 - middle) / advance - 1)).toBeLessThan(2e-3);
  });

  it("takes its heat of reaction from the layer", () => {
    const heated = (heat: number) =>
      solveColumn({
        layers: [plainLayer([0.3, 1300, 1500], 50e-6, { decomposition: { ...acrylic, heat } })],
        metal: plainMetal([50, 7850, 480], 1e-3),
        light: (grid) => ({
          layerShares: Float64Array.from(
            { length: grid.layerCount },
            (_, i) => (grid.edges[i + 1]! - grid.edges[i]!) / 50e-6,
          ),
          metalShare: 0,
        }),
        // 2000 K of sensible heat within 1 µs
        pulse: square(2000 * 1300 * 1500 * 50e-6, 1e-6),
        startTemperature: 300,
        endTime: 1.5e-6,
      });
    const with1 = heated(1e6);
    expect(with1.conversion[12]).toBeGreaterThan(0.999);
    expect(with1.energyBalanceError).toBeLessThan(1e-5);
    // Colder by X·heat/c than without a heat of reaction: nothing is conducted from the middle in that time.
    const gap = heated(0).finalTemperature[12]! - with1.finalTemperature[12]!;
    expect(Math.abs(gap / ((with1.conversion[12]! * 1e6) / 1500) - 1)).toBeLessThan(2e-5);
  });

  it("advances by the mean rate of a straight logarithm, either way, and by nothing when cold", () => {
    const straight = integrate((s) => Math.exp(2 + 5 * s), 0, 1) * 3;
    expect(Math.abs(reactionAdvance(2, 7, 3) / straight - 1)).toBeLessThan(1e-12);
    expect(Math.abs(reactionAdvance(7, 2, 3) / straight - 1)).toBeLessThan(1e-12);
    expect(Math.abs(reactionAdvance(2, 2, 3) / (3 * Math.exp(2)) - 1)).toBeLessThan(1e-12);
    expect(Math.abs(reactionAdvance(2, 2 + 1e-5, 3) / (3 * Math.exp(2 + 0.5e-5)) - 1)).toBeLessThan(1e-9);
    expect(reactionAdvance(-200, -100, 1)).toBe(0);
    expect(Number.isFinite(reactionAdvance(-1e4, 3, 1))).toBe(true);
  });
});
