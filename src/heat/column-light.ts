import { requireNonNegative, requireShare } from "#units";
import type { ColumnLayer, LightHook } from "./column-spec.ts";

/**
 * Light that is absorbed and not scattered, through whatever is left of the layers: a cell of width Δz takes
 * (1 − e^(−α·Δz)) of what reaches it, α = (1 − X)·α₀ + X·α_char; the metal takes its absorptance of the rest, what it
 * reflects is lost. Follows thinning and char when given to a column with `lightStep`.
 * absorption: α₀ of each layer, 1/m, ≥ 0; reflectance: share reflected at the outer surface, 0..1; absorptance: share the
 * metal takes of what reaches it, 0..1. X: conversion; α_char: the layer's `char.absorption`, α₀ where it has no char.
 * Throws `InvalidInput`. Source: Beer-Lambert law.
 */
export function absorbedLight(
  layers: readonly ColumnLayer[],
  absorption: readonly number[],
  reflectance: number,
  absorptance: number,
): LightHook {
  requireShare("reflectance", reflectance);
  requireShare("absorptance", absorptance);
  layers.forEach((_, k) => {
    requireNonNegative("absorption", absorption[k], "1/m");
  });
  return (grid, progress) => {
    const layerShares = new Float64Array(grid.layerCount);
    const first = progress?.firstCell ?? 0;
    let rest = 1 - reflectance;
    for (let i = first; i < grid.layerCount; i++) {
      const k = grid.layerOf[i];
      const x = progress ? progress.conversion[i] : 0;
      const alpha = absorption[k] + x * ((layers[k].char?.absorption ?? absorption[k]) - absorption[k]);
      const width = progress ? progress.width[i] : grid.edges[i + 1] - grid.edges[i];
      layerShares[i] = rest * -Math.expm1(-alpha * width);
      rest -= layerShares[i];
    }
    return { layerShares, metalShare: rest * absorptance };
  };
}
