import type { KernelNode } from "./kernel-types.ts";

/** Step between columns of a law table in ln fluence, and their number. */
export const STEP = 0.16;
export const COLUMNS = 56;

export interface LawConditions {
  /** K, temperature of the part just before the event */
  readonly startTemperature: number;
  /** m, 1/e² radius at the work */
  readonly radius: number;
  /** 1, how much of the column's metal rise is left when heat spreads sideways */
  readonly lateralFactor: number;
  /** ln(J/m²), first column; left out: chosen from the kernel */
  readonly lnFluenceFirst?: number;
  /** J/m², strongest event that will be asked about: columns that it cannot reach stay empty; left out: all are filled */
  readonly peakFluence?: number;
}

/** K·m²/J that is left of a rise in the layer when heat spreads sideways in the metal: what the interface loses, at most its share. */
export function keptRise(rise: number, node: KernelNode, lateralFactor: number): number {
  return Math.max(rise - (1 - lateralFactor) * node.interfaceRise, rise * lateralFactor);
}
