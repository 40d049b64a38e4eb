import { absorbedLight, type ColumnSpec, columnGrid, solveColumn } from "#heat";
import { plainColumn } from "./column-reference.ts";
import { exampleModelParts } from "./example.ts";
import { cpu, type Piece, piece } from "./measure.ts";

const { sample } = exampleModelParts();

/** Two layers on metal that melts, light spread evenly over the depth of the layers. */
export const hundred: ColumnSpec = {
  layers: sample.layers.map((l) => ({ ...l, decomposition: null })),
  metal: sample.metal,
  light: (grid) => ({
    layerShares: Float64Array.from(
      { length: grid.layerCount },
      (_, i) => (0.3 * (grid.edges[i + 1] - grid.edges[i])) / grid.edges[grid.layerCount],
    ),
    metalShare: 0.2,
  }),
  pulse: { fluence: 4e4, duration: 100e-9, shape: "square" },
  startTemperature: 293.15,
  endTime: 300e-9,
};

/** A dark film that ablates, on paint that decomposes with heat and char, on metal that melts; light follows, Gaussian pulse. */
export const everything: ColumnSpec = (() => {
  const [paint] = sample.layers;
  const film = {
    thickness: 4e-6,
    density: 1500,
    conductivity: 0.4,
    heatCapacity: 1400,
    decomposition: null,
    ablationTemperature: 900,
    ablationHeat: 1.5e6,
  };
  const coat = {
    ...paint,
    thickness: 25e-6,
    char: { fraction: 0.15, absorption: 1.5e5, conductivity: 0.2, heatCapacity: 1200 },
  };
  const layers = [film, coat];
  return {
    layers,
    metal: sample.metal,
    light: absorbedLight(layers, [3e5, 4e4], 0.04, 0.3),
    lightStep: 0.5e-6,
    pulse: { fluence: 1.2e5, duration: 100e-9, shape: "gaussian" },
    startTemperature: 293.15,
    endTime: 600e-9,
  };
})();

const plain = (spec: ColumnSpec) =>
  plainColumn(spec, columnGrid(spec.layers, spec.metal, spec.pulse.duration, spec.endTime));

/** Both must say the same before their times are compared: peak of the metal within 2 %, melt depth within 3 %. */
function agree(spec: ColumnSpec): void {
  const own = solveColumn(spec);
  const other = plain(spec);
  const peak = own.metalSurfacePeak / other.metalPeak - 1;
  const melt = own.meltDepth / other.meltDepth - 1;
  if (Math.abs(peak) > 0.02 || Math.abs(melt) > 0.03) throw new Error(`column and reference differ: ${peak}, ${melt}`);
}

const against = "explicit Euler, same grid and physics, flat arrays; peak within 2 %, melt depth within 3 %";

export const columnPieces: readonly Piece[] = [
  piece("column-100", "<= 0.002 s", against, () => {
    agree(hundred);
    return { cpu: cpu(20, 7, () => solveColumn(hundred)), reference: cpu(2, 3, () => plain(hundred)) };
  }),
  piece("column-full", "<= 0.006 s", `${against}; light followed in both`, () => {
    agree(everything);
    return { cpu: cpu(20, 7, () => solveColumn(everything)), reference: cpu(1, 3, () => plain(everything)) };
  }),
];
