import type { ColumnGrid, ColumnLayer, ColumnLight, ColumnMetal, ColumnPulse, ColumnResult, ColumnTable } from "#heat";

/** A metal with constant properties that neither melts nor boils unless told so. */
export function plainMetal(
  [conductivity, density, heatCapacity]: readonly [number, number, number],
  thickness: number,
  more: Partial<ColumnMetal> = {},
): ColumnMetal {
  return {
    density,
    temperature: Float64Array.of(300),
    conductivity: Float64Array.of(conductivity),
    heatCapacity: Float64Array.of(heatCapacity),
    meltingTemperature: 1e5,
    latentHeatMelting: 0,
    boilingTemperature: 2e5,
    latentHeatBoiling: 0,
    thickness,
    ...more,
  };
}

export function plainLayer(
  [conductivity, density, heatCapacity]: readonly [number, number, number],
  thickness: number,
  more: Partial<ColumnLayer> = {},
): ColumnLayer {
  return {
    thickness,
    density,
    conductivity,
    heatCapacity,
    decomposition: null,
    ablationTemperature: null,
    ablationHeat: null,
    ...more,
  };
}

export function square(fluence: number, duration: number): ColumnPulse {
  return { fluence, duration, shape: "square" };
}

export const bareLight: ColumnLight = { layerShares: new Float64Array(0), metalShare: 1 };

/** Beer-Lambert through all layer cells, then a share in the metal. */
export function beerLambert(
  entering: number,
  absorption: number,
  metalShare: number,
): (grid: ColumnGrid) => ColumnLight {
  return (grid) => ({
    layerShares: Float64Array.from(
      { length: grid.layerCount },
      (_, i) => entering * (Math.exp(-absorption * grid.edges[i]!) - Math.exp(-absorption * grid.edges[i + 1]!)),
    ),
    metalShare,
  });
}

/** Tolerances at which only the grid is left as an error. */
export const fineSteps = { absoluteTolerance: 0.01, relativeTolerance: 1e-5, minimumStep: 1e-13 };

/** Round figures of low-carbon steel, from memory. */
export const steel: ColumnMetal = {
  density: 7850,
  temperature: Float64Array.of(300, 1000, 1780, 3000),
  conductivity: Float64Array.of(50, 30, 32, 35),
  heatCapacity: Float64Array.of(460, 700, 800, 820),
  meltingTemperature: 1780,
  latentHeatMelting: 2.7e5,
  boilingTemperature: 3100,
  latentHeatBoiling: 6.1e6,
  thickness: 2e-3,
};

/** A table of conductivity and heat capacity at the given temperatures, K. */
export function tableOf(points: readonly number[], k: (t: number) => number, c: (t: number) => number): ColumnTable {
  return {
    temperature: Float64Array.from(points),
    conductivity: Float64Array.from(points, k),
    heatCapacity: Float64Array.from(points, c),
  };
}

/** Final temperature at depth z (m) through the centres of the four nearest cells from `from` to below `to`, K. */
export function finalAt(result: ColumnResult, z: number, from = 0, to = result.grid.count): number {
  const { edges } = result.grid;
  const centre = (i: number) => 0.5 * (edges[i]! + edges[i + 1]!);
  let i = from;
  while (i < to - 4 && centre(i + 2) < z) i++;
  i = Math.max(from, Math.min(i, to - 4));
  let sum = 0;
  for (let j = i; j < i + 4; j++) {
    let weight = 1;
    for (let k = i; k < i + 4; k++) if (k !== j) weight *= (z - centre(k)) / (centre(j) - centre(k));
    sum += weight * result.finalTemperature[j]!;
  }
  return sum;
}
