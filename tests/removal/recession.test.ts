import { describe, expect, it } from "vitest";
import { absorbedLight, solveColumn } from "#heat";
import { buildKernel, type KernelNode, lawTable, metalResponse, recession, responseTable } from "#removal";
import type { StackSample } from "#terms";
import { fillEaten, firstEaten, heldByMetal } from "../../src/removal/eaten.ts";
import { COLUMNS, keptRise, STEP } from "../../src/removal/law-conditions.ts";
import { sampleOf } from "./samples.ts";

const base: KernelNode = {
  remaining: 40e-6,
  metalRise: 0,
  interfaceRise: 0,
  meanRise: 0,
  depth: new Float64Array(0),
  rise: new Float64Array(0),
  eatenAt: new Float64Array(0),
  char: new Float64Array(0),
  stayRise: 0,
  heatShare: 0,
  stripShare: 1,
  volumetricHeat: 2e6,
  relaxation: 0,
};
const conditions = { startTemperature: 300, radius: 1e-4, lateralFactor: 1 };

/** Light that falls off as exp(−αz) into a layer that conducts nothing: 800 cells of 0.05 µm, α = 1e6 1/m, eaten at 800 K. */
const cells = 800;
const beer: KernelNode = {
  ...base,
  depth: Float64Array.from({ length: cells }, (_, i) => (i + 1) * 0.05e-6),
  rise: Float64Array.from({ length: cells }, (_, i) => (1e6 * Math.exp(-(i + 1) * 0.05)) / 2e6),
  eatenAt: new Float64Array(cells).fill(800),
};

function eatenBy(node: KernelNode, time: number, more = {}, first = Math.log(100)): Float64Array {
  const eaten = new Float64Array(2 * COLUMNS).fill(-1);
  fillEaten(node, { ...conditions, ...more }, eaten, COLUMNS, first, time);
  expect([...eaten.subarray(0, COLUMNS)].every((v) => v === -1)).toBe(true);
  return eaten.subarray(COLUMNS);
}

describe("depth that a long event eats", () => {
  it("by hand: 0.8·10 kJ/m² over 4 GJ/m³ is 2 µm, half of it where vapour takes as long to clear as the event lasts", () => {
    expect(recession(3e4, 2e4, 0.8, 4e9, 1e6)).toBeCloseTo(2e-6, 15);
    expect(recession(3e4, 2e4, 0.8, 4e9, 1e-6)).toBeCloseTo(1e-6, 15);
    expect(recession(3e4, 2e4, 0.8, 4e9, 10e-9)).toBeCloseTo(2e-6 / 101, 15);
    expect(recession(2e4, 2e4, 0.8, 4e9, 1)).toBe(0);
    expect(recession(1e4, 2e4, 0.8, 4e9, 1)).toBe(0);
  });
});

describe("what is eaten from above", () => {
  it("is ln(F/F₀)/α under a short pulse without conduction (Beer-Lambert; Andrew et al. 1983, from memory)", () => {
    // F₀ = 500 K·2e6/1e6 = 1000 J/m²
    const eaten = eatenBy(beer, 1e-15);
    for (let c = 0; c < COLUMNS; c++) {
      const law = (Math.log(100) + c * STEP - Math.log(1000)) / 1e6;
      if (law <= -0.05e-6) expect(eaten[c]).toBe(0);
      else if (law < 40e-6 && law > 0.1e-6) expect(Math.abs(eaten[c]! - law)).toBeLessThan(1e-9);
    }
    expect(eaten[COLUMNS - 1]).toBeLessThan(40e-6);
    // F₀ of the top cell, whose lower edge counts: e^0.05 more
    expect(firstEaten(beer, conditions)).toBeCloseTo(1000 * Math.exp(0.05), 9);
  });

  it("goes on by the books of heat under a long one: what leaves carries ρ·c·(800 K − 300 K) per volume", () => {
    const eaten = eatenBy(beer, 1);
    const first = firstEaten(beer, conditions);
    for (let c = 0; c < COLUMNS; c++) {
      const fluence = 100 * Math.exp(c * STEP);
      const steady = Math.max(0, (fluence - first) / (2e6 * 500)) / (1 + 1e-6);
      const short = Math.max(0, Math.log(fluence / 1000) / 1e6);
      if (Math.abs(fluence - first) > 100)
        expect(Math.abs(eaten[c]! - Math.max(steady, Math.min(40e-6, short)))).toBeLessThan(2e-9);
    }
    // More than is there: what is over tells how much of the event is left for char and metal.
    expect(eaten[COLUMNS - 1]).toBeGreaterThan(40e-6);
  });

  it("leaves what the metal keeps cold: the thickness whose top only just begins to be eaten, ln-ln between nodes", () => {
    const law = { remaining: Float64Array.of(0, 1e-6, 4e-6, 16e-6), begin: Float64Array.of(Infinity, 8e3, 2e3, 1e3) };
    expect(heldByMetal(1.5e3, 16e-6, law)).toBeCloseTo(4e-6 * 4 ** (Math.log(1.5 / 2) / Math.log(1 / 2)), 12);
    expect(heldByMetal(4e3, 16e-6, law)).toBeCloseTo(2e-6, 12);
    expect(heldByMetal(9e3, 16e-6, law)).toBe(0);
    expect(heldByMetal(1.5e3, 3e-6, law)).toBe(3e-6);
  });

  it("stops at a cell that is not hot enough, however hot the ones below it", () => {
    const rise = Float64Array.of(1e-1, 1e-3, 1e-1);
    const node = {
      ...base,
      stripShare: 0,
      depth: Float64Array.of(1e-6, 2e-6, 40e-6),
      rise,
      eatenAt: Float64Array.of(800, 800, 800),
    };
    // thresholds 5e3, 5e5 and (below a closed door) 5e5 J/m²
    const at = (fluence: number) => eatenBy(node, 1e-9, {}, Math.log(fluence))[0]!;
    expect(at(4.8e3)).toBe(0);
    expect(at(5.001e3)).toBeCloseTo(1e-6, 9);
    // a fifth of the way between the thresholds: a fifth of the cell
    expect(at(5e3 + 0.2 * 4.95e5)).toBeCloseTo(1.2e-6, 12);
    expect(at(4.99e5)).toBeLessThan(2e-6);
    expect(at(5.001e5)).toBeCloseTo(40e-6, 12);
  });

  it("is nothing where the layer cannot be eaten, or is bare; a part as hot as that is eaten by any light", () => {
    const never = { ...beer, eatenAt: new Float64Array(cells).fill(Number.POSITIVE_INFINITY) };
    expect([...eatenBy(never, 1)].every((v) => v === 0)).toBe(true);
    expect(firstEaten({ ...beer, remaining: 0 }, conditions)).toBe(Number.POSITIVE_INFINITY);
    expect(firstEaten({ ...base }, conditions)).toBe(Number.POSITIVE_INFINITY);
    expect(firstEaten(beer, { ...conditions, startTemperature: 900 })).toBe(0);
  });

  it("begins at 1/(rise that is kept): heat that spreads sideways is lost to the interface, at most in its share", () => {
    expect(keptRise(0.5, { ...base, interfaceRise: 0.1 }, 0.4)).toBeCloseTo(0.44, 12);
    expect(keptRise(0.5, { ...base, interfaceRise: 0.5 }, 0.4)).toBeCloseTo(0.2, 12);
    expect(keptRise(0.5, { ...base, interfaceRise: 0.9 }, 0.4)).toBeCloseTo(0.2, 12);
    expect(keptRise(0.5, { ...base, interfaceRise: 0.1 }, 1)).toBe(0.5);
    const top = beer.rise[0]!;
    const half = firstEaten({ ...beer, interfaceRise: top / 2 }, { ...conditions, lateralFactor: 0.4 });
    expect(half).toBeCloseTo(firstEaten(beer, conditions) / 0.7, 6);
  });
});

describe("a dark layer under a pulse of 100 µs, against the column that recedes with its light", () => {
  const duration = 100e-6;
  const plain = sampleOf("steel-low-carbon", [["alkyd", "dark", 200, false]]);
  /** Ablates at 800 K for 1 MJ/kg; light is absorbed and not scattered. */
  const sample: StackSample = {
    ...plain,
    layers: plain.layers.map((l) => ({
      ...l,
      scattering: 0,
      absorption: 3e5,
      internalReflectance: 0,
      externalReflectance: 0.05,
      decomposition: null,
      ablationTemperature: 800,
      ablationHeat: 1e6,
    })),
  };
  const layer = sample.layers[0]!;
  const kernel = buildKernel(sample, duration, "square");
  const response = metalResponse(responseTable(sample.metal, "square"));
  const law = lawTable(sample, kernel, response, { startTemperature: 293.15, radius: 1, lateralFactor: 1 });
  const row = law.remaining.length - 1;
  const lawDepth = (fluence: number) => {
    law.need(row);
    const at = (Math.log(fluence) - law.lnFluenceFirst) / law.lnFluenceStep;
    const i = row * law.columns + Math.floor(at);
    return law.eaten[i]! + (at % 1) * (law.eaten[i + 1]! - law.eaten[i]!);
  };
  const columnDepth = (fluence: number) =>
    solveColumn({
      layers: [layer],
      metal: sample.metal,
      light: absorbedLight([layer], [layer.absorption], layer.externalReflectance, sample.metal.absorptance),
      lightStep: 5e-7,
      pulse: { fluence, duration, shape: "square" },
      startTemperature: 293.15,
      endTime: 1.2 * duration,
      grid: { layerCells: 300, layerFirstCell: 3e-7 },
    }).recession;

  it.each([
    [2e5, 0.07],
    [1e5, 0.11],
    [5e4, 0.22],
  ])("%f J/m²: never deeper than the column, and short of it by 3 to 5 µm, a share below %f", (fluence, share) => {
    const [read, solved] = [lawDepth(fluence), columnDepth(fluence)];
    expect(solved).toBeGreaterThan(15e-6);
    expect(solved - read).toBeGreaterThan(3e-6);
    expect(solved - read).toBeLessThan(5e-6);
    expect(1 - read / solved).toBeLessThan(share);
  });

  it("gains as much depth per further fluence as the column does, within 3 %", () => {
    const gain = (depth: (f: number) => number) => depth(2e5) - depth(1e5);
    expect(Math.abs(gain(lawDepth) / gain(columnDepth) - 1)).toBeLessThan(0.03);
  });
});
