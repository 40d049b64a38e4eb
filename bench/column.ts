import { solveColumn } from "#heat";
import { exampleModelParts } from "./example.ts";
import { cpu, type Piece, piece } from "./measure.ts";
import { explicitColumn } from "./reference.ts";

const { sample } = exampleModelParts();

const column = () =>
  solveColumn({
    layers: sample.layers.map((l) => ({ ...l, decomposition: null })),
    metal: sample.metal,
    light: (grid) => ({ layerShares: new Float64Array(grid.layerCount).fill(0.3 / grid.layerCount), metalShare: 0.2 }),
    pulse: { fluence: 4e4, duration: 100e-9, shape: "square" },
    startTemperature: 293.15,
    endTime: 300e-9,
  });

export const columnPieces: readonly Piece[] = [
  piece("column-100", "<= 0.002 s", "bare half-space by explicit Euler, 100 cells", () => ({
    cpu: cpu(20, 7, column),
    reference: cpu(5, 5, () => explicitColumn(100, 20e-6, 6e-5, 100e-9)),
  })),
];
