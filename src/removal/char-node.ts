import type { LayerSample, StackSample } from "#terms";
import { CARBON_HEAT_CAPACITY } from "./char.ts";
import type { CharNode } from "./kernel-types.ts";
import { solveLinear, stackGrid } from "./solve-stack.ts";
import { stripOf } from "./strip.ts";

/** Shares of the room of all charring layers at which the char law is tabulated. */
const CHAR_SHARES = [0.1, 0.3, 1];
const CHAR_CELLS = 14;

/**
 * The char of the whole strip keeps the room of the layers that it came from, at a share of their density: the light is
 * taken near its top, and little heat comes through.
 */
export function charNodes(sample: StackSample, duration: number, shape: "square" | "gaussian"): CharNode[] {
  const { off, stay } = stripOf(sample);
  const charring = off.filter((l) => l.decomposition?.char && l.decomposition.charFraction > 0);
  if (charring.length === 0) return [];
  const room = charring.reduce((sum, l) => sum + l.thickness, 0);
  const mean = (of: (l: LayerSample) => number) => charring.reduce((sum, l) => sum + l.thickness * of(l), 0) / room;
  const fraction = mean((l) => l.decomposition?.charFraction ?? 0);
  const char: LayerSample = {
    ...charring[charring.length - 1],
    density: fraction * mean((l) => l.density),
    // Heat runs through a porous solid in proportion to how much of it there is.
    conductivity: fraction * mean((l) => l.conductivity),
    heatCapacity: CARBON_HEAT_CAPACITY,
    absorption: mean((l) => l.decomposition?.char?.absorption ?? 0),
    scattering: 0,
    externalReflectance: 0,
    internalReflectance: 0,
    decomposition: null,
    ablationTemperature: null,
    ablationHeat: null,
  };
  return CHAR_SHARES.map((share) => {
    const layers = [
      { layer: char, thickness: share * room },
      ...stay.map((l) => ({ layer: l, thickness: l.thickness })),
    ];
    const { edges, owner } = stackGrid(layers, 1, duration, CHAR_CELLS);
    const { column, absorbed } = solveLinear(sample, layers, edges, owner.length, owner.length, duration, shape);
    const cells = owner.filter((o) => o === 0).length;
    return {
      remaining: share * room,
      density: char.density,
      width: Float64Array.from({ length: cells }, (_, i) => edges[i + 1] - edges[i]),
      rise: column.peak.slice(0, cells),
      time: column.timeNearPeak.slice(0, cells),
      share: absorbed.subarray(0, cells).reduce((a, b) => a + b, 0),
      metalRise: column.metalPeak,
    };
  });
}
