import { invalid, requireInteger, requirePositive } from "#units";
import { largestDiffusivity } from "./column-material.ts";
import type { ColumnGrid, ColumnLayer, ColumnMetal, GridOptions } from "./column-spec.ts";

/**
 * Ratio r of a geometric series first·(1 + r + … + r^(count−1)) = total.
 * first, total: m; count: 1. Result: 1 (dimensionless). Never below 1: a first cell that is too large is shrunk by
 * the caller's normalisation. Source: own.
 */
export function geometricRatio(first: number, total: number, count: number): number {
  if (first * count >= total) return 1;
  let low = 1;
  let high = 2;
  while (seriesSum(first, high, count) < total) high *= 2;
  for (let i = 0; i < 60; i++) {
    const middle = 0.5 * (low + high);
    if (seriesSum(first, middle, count) < total) low = middle;
    else high = middle;
  }
  return 0.5 * (low + high);
}

function seriesSum(first: number, ratio: number, count: number): number {
  return ratio - 1 < 1e-12 ? first * count : (first * (ratio ** count - 1)) / (ratio - 1);
}

/** Cells of a layer: finest at both faces, where light enters and where the metal heats, coarsest in the middle. */
function layerWidths(thickness: number, first: number, count: number): number[] {
  const half = Math.floor(count / 2);
  const odd = count % 2;
  const ratio = geometricRatio(first, thickness / 2, half + odd * 0.5);
  const widths = Array.from({ length: count }, (_, i) => ratio ** Math.min(i, count - 1 - i));
  const sum = widths.reduce((a, b) => a + b, 0);
  return widths.map((w) => (w / sum) * thickness);
}

/** Deepest metal that heat reaches by the end time: three and a half diffusion lengths √(4·D·t) at the largest D of the table. */
function reachedDepth(metal: ColumnMetal, endTime: number): number {
  return 3.5 * Math.sqrt(4 * largestDiffusivity(metal) * endTime);
}

/**
 * Cells through all layers and the metal. Layer cells grow from both faces to the middle, metal cells from the
 * surface down, both geometrically.
 * duration: s, of the pulse (sets the first cells); endTime: s (sets the depth of metal that is solved).
 * Throws `InvalidInput` on a thickness, duration or cell count that cannot be. Source: own.
 */
export function columnGrid(
  layers: readonly ColumnLayer[],
  metal: ColumnMetal,
  duration: number,
  endTime: number,
  options: GridOptions = {},
): ColumnGrid {
  requirePositive("pulse duration", duration, "s");
  requirePositive("end time", endTime, "s");
  requirePositive("metal thickness", metal.thickness, "m");
  const layerCells = requireInteger("layerCells", options.layerCells ?? 24, 2, 100_000);
  const metalCells = requireInteger("metalCells", options.metalCells ?? 48, 2, 100_000);
  const widths: number[] = [];
  const layerOf = new Int32Array(layers.length * layerCells);
  layers.forEach((layer, index) => {
    requirePositive("layer thickness", layer.thickness, "m");
    const diffusivity = layer.conductivity / (layer.density * layer.heatCapacity);
    const first = options.layerFirstCell ?? Math.sqrt(diffusivity * duration) / 3;
    layerOf.fill(index, index * layerCells, (index + 1) * layerCells);
    widths.push(...layerWidths(layer.thickness, first, layerCells));
  });
  const depth = Math.min(metal.thickness, options.metalDepth ?? reachedDepth(metal, endTime));
  if (!(depth > 0)) invalid("metal depth", depth, "m", "must be above 0");
  const diffusivity = metal.conductivity[0]! / (metal.density * metal.heatCapacity[0]!);
  const first = options.metalFirstCell ?? Math.sqrt(diffusivity * duration) / 40;
  const ratio = geometricRatio(first, depth, metalCells);
  const scale = depth / seriesSum(1, ratio, metalCells);
  for (let i = 0; i < metalCells; i++) widths.push(scale * ratio ** i);
  const edges = new Float64Array(widths.length + 1);
  widths.forEach((w, i) => {
    edges[i + 1] = edges[i]! + w;
  });
  return { edges, layerCount: layerOf.length, count: widths.length, layerOf };
}
