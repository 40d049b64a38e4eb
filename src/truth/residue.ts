import type { LayerLaw } from "./draw-laws.ts";
import type { Exposure } from "./raster-exposure.ts";

/** Thresholds of the layers against each other, ln; the level of them all comes from the anchor. */
export type LayerOffsets = readonly number[];

/** Share of a point that is still covered: 1 below −width, 0 above width, smooth between (cubic step). */
function covered(excess: number, width: number): number {
  const z = (excess / width + 1) / 2;
  return z <= 0 ? 1 : z >= 1 ? 0 : 1 - z * z * (3 - 2 * z);
}

/**
 * Share of the cell that keeps residue.
 *
 * Equation: mean over the points of the most that any layer still covers, each by its excess drive + exposure − offset − κ·ln(h/h₀).
 * Units: drive ln over the common threshold, lnThickness ln(h/h₀). Range: any finite. Result between 0 and 1. Errors: none.
 * Source: own, invented.
 */
export function residueAt(
  exposure: Exposure,
  layers: readonly LayerLaw[],
  offsets: LayerOffsets,
  drive: number,
  lnThickness: number,
): number {
  const points = exposure.layers[0]!.length;
  let sum = 0;
  for (let i = 0; i < points; i++) {
    let most = 0;
    for (let l = 0; l < layers.length; l++) {
      const law = layers[l]!;
      const excess = drive + exposure.layers[l]![i]! - offsets[l]! - law.thicknessExponent * lnThickness;
      const left = covered(excess, law.width);
      if (left > most) most = left;
    }
    sum += most;
  }
  return sum / points;
}

const TOLERANCE = 2e-4;

/**
 * The drive at which the residue falls to what is accepted, by halving.
 * Units: ln. Range: residueMax in [0, 1). Errors: none. Source: definition.
 */
export function cleanDrive(
  exposure: Exposure,
  layers: readonly LayerLaw[],
  offsets: LayerOffsets,
  residueMax: number,
  lnThickness: number,
): number {
  let low = Infinity;
  let high = -Infinity;
  layers.forEach((law, l) => {
    const base = offsets[l]! + law.thicknessExponent * lnThickness;
    for (const e of exposure.layers[l]!) {
      if (base - e - law.width < low) low = base - e - law.width;
      if (base - e + law.width > high) high = base - e + law.width;
    }
  });
  while (high - low > TOLERANCE) {
    const middle = (low + high) / 2;
    if (residueAt(exposure, layers, offsets, middle, lnThickness) <= residueMax) high = middle;
    else low = middle;
  }
  return high;
}
