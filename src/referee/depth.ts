import { interpolateLinear } from "#numerics";
import { requirePositive } from "#units";
import { type Axis, axisOf, growingEdges } from "./grid.ts";
import type { RefereeLayer, RefereeMetal } from "./material.ts";

/** Cells of the layer on top, thinner towards the metal by squares, because there heat crosses from one to the other. */
const LAYER_CELLS = 16;

/** Axis down through the layer, if any, and the metal, with what the field needs to know of the contact. */
export interface Depth {
  readonly axis: Axis;
  contact(
    metal: RefereeMetal,
    startTemperature: number,
  ): {
    readonly cells: number;
    readonly conductivity: number;
    readonly metalConductivity: number;
  } | null;
}

/**
 * Lays out cells downwards: thinner and thinner ones through the layer, then metal cells from `cell` on, even to `fine`, then growing.
 * Units: m; growth 1. `thickness` of the metal, where given, is met exactly. Errors: `InvalidInput`. Source: own.
 */
export function layeredDepth(
  layer: RefereeLayer | null,
  cell: number,
  fine: number,
  growth: number,
  thickness: number | null,
  reach: number,
): Depth {
  let metal = growingEdges(cell, fine, growth, reach);
  if (thickness !== null) {
    requirePositive("thickness", thickness, "m");
    metal = metal.filter((z) => z < thickness - 0.3 * cell);
    metal.push(thickness);
  }
  const top = layer ? requirePositive("layer thickness", layer.thickness, "m") : 0;
  const above = layer ? Array.from({ length: LAYER_CELLS }, (_, i) => top * (1 - (1 - i / LAYER_CELLS) ** 2)) : [];
  return {
    axis: axisOf([...above, ...metal.map((z) => z + top)]),
    contact: (body, startTemperature) =>
      layer && {
        cells: LAYER_CELLS,
        conductivity: layer.conductivity,
        metalConductivity: interpolateLinear(body.temperature, body.conductivity, startTemperature),
      },
  };
}
