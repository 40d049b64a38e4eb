import { describe, expect, it } from "vitest";
import { solveColumn } from "#heat";
import { centralSample, layerKind, metal } from "#library";
import { depositLight } from "#light";
import { buildKernel, effectiveMetal, lawTable, metalResponse, responseTable } from "#removal";
import type { StackSample } from "#terms";

/** Stacks, fluence (J/cm²) and pulse width of the comparison: light and dark coats, thin and thick, three metals. */
const cases: readonly (readonly [string, string, "white" | "mid" | "dark", number, number, number])[] = [
  ["aluminium-5083", "polyurethane-topcoat", "white", 40, 1.5, 100e-9],
  ["aluminium-5083", "epoxy-primer", "white", 25, 1, 30e-9],
  ["steel-low-carbon", "alkyd", "white", 50, 1, 200e-9],
  ["steel-low-carbon", "polyurethane-topcoat", "white", 30, 0.6, 100e-9],
  ["stainless-304", "acrylic", "white", 30, 0.8, 60e-9],
  ["titanium-6-4", "polyurethane-topcoat", "white", 40, 0.6, 150e-9],
  ["steel-low-carbon", "polyurethane-topcoat", "dark", 40, 3, 100e-9],
  ["aluminium-5083", "alkyd", "dark", 60, 4, 200e-9],
];

function sampleOf(metalId: string, kindId: string, colour: "white" | "mid" | "dark", um: number): StackSample {
  const kind = layerKind(kindId);
  const thickness = { ...kind.usualThickness, value: um * 1e-6, low: um * 1e-6, high: um * 1e-6 };
  return centralSample({
    metal: metal(metalId),
    metalThickness: 5e-3,
    layers: [{ kind, colour, thickness, mustStay: false }],
  });
}

/** The full column, reactions and melting on, followed as long as the law follows its kernel. */
function full(sample: StackSample, fluence: number, duration: number, follow: number) {
  const layer = sample.layers[0];
  return solveColumn({
    layers: [layer],
    metal: { ...sample.metal, thickness: sample.metal.thickness },
    light: (grid) => {
      const layerShares = new Float64Array(grid.layerCount);
      const { metalAbsorbed } = depositLight(
        {
          layers: [{ thickness: layer.thickness, absorption: layer.absorption, scattering: layer.scattering }],
          metalAbsorptance: sample.metal.absorptance,
          externalReflectance: layer.externalReflectance,
          internalReflectance: layer.internalReflectance,
        },
        grid.edges.slice(0, grid.layerCount + 1),
        layerShares,
      );
      return { layerShares, metalShare: metalAbsorbed };
    },
    pulse: { fluence, duration, shape: "square" },
    startTemperature: 293.15,
    endTime: duration + follow,
    grid: { layerCells: 60 },
  });
}

describe("the law read from linear kernels, against the full column", () => {
  it.each(cases)(
    "%s, %s %s %i µm, %f J/cm²: interface within 8 %%, eaten depth within 15 %% or 1.5 µm",
    (metalId, kindId, colour, um, fluenceCm, duration) => {
      const sample = sampleOf(metalId, kindId, colour, um);
      const fluence = fluenceCm * 1e4;
      const kernel = buildKernel(sample, duration, "square");
      const response = metalResponse(responseTable(sample.metal, "square"));
      const law = lawTable(sample, kernel, response, { startTemperature: 293.15, radius: 1, lateralFactor: 1 });
      const row = kernel.nodes.length - 1;
      const column = full(sample, fluence, duration, 20e-6);

      const rise = response.rise(fluence * kernel.nodes[row].interfaceRise, 293.15);
      const solved = column.metalSurfacePeak - 293.15;
      expect(solved).toBeGreaterThan(0);
      if (solved > 10) expect(Math.abs(rise / solved - 1)).toBeLessThan(0.08);

      const at = (Math.log(fluence) - law.lnFluenceFirst) / law.lnFluenceStep;
      const i = Math.floor(at);
      law.need(row);
      const eaten = law.eaten[row * law.columns + i] * (1 - at + i) + law.eaten[row * law.columns + i + 1] * (at - i);
      let gone = 0;
      for (let c = 0; c < column.grid.layerCount && column.conversion[c] >= 0.5; c++)
        gone += column.grid.edges[c + 1] - column.grid.edges[c];
      expect(Math.abs(eaten - gone)).toBeLessThan(Math.max(0.15 * gone, 1.5e-6));
    },
  );
});

describe("effective metal", () => {
  it("is the mean between room temperature and melting: a conductivity that rises evenly from 100 to 200 counts as 150", () => {
    const base = centralSample({ metal: metal("copper"), metalThickness: 1e-3, layers: [] }).metal;
    const made = effectiveMetal({
      ...base,
      density: 1000,
      temperature: Float64Array.of(293.15, base.meltingTemperature - 1),
      conductivity: Float64Array.of(100, 200),
      heatCapacity: Float64Array.of(500, 700),
    });
    expect(made.conductivity).toBeCloseTo(150, 9);
    expect(made.volumetricHeat).toBeCloseTo(600e3, 6);
    expect(made.diffusivity).toBeCloseTo(150 / 600e3, 12);
  });
});
