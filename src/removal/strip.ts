import type { LayerSample, StackSample } from "#terms";

/** A stack split at the first layer that must stay: what comes off, what stays, and the thickness that comes off. */
export interface Strip {
  readonly off: readonly LayerSample[];
  readonly stay: readonly LayerSample[];
  /** m */
  readonly thickness: number;
  /** m, a cell with more than this left counts as residue: max(1 µm, 5 % of what comes off) */
  readonly residueThickness: number;
}

/** Thickness that still counts as clean, m: max(1 µm, 5 % of the layer). */
export function residueThickness(thickness: number): number {
  return Math.max(1e-6, 0.05 * thickness);
}

const known = new WeakMap<StackSample, Strip>();

/** Splits a stack into the layers that come off and those that stay (everything from the first `mustStay` down). */
export function stripOf(sample: StackSample): Strip {
  const split = known.get(sample) ?? splitOf(sample);
  known.set(sample, split);
  return split;
}

function splitOf(sample: StackSample): Strip {
  const first = sample.layers.findIndex((l) => l.mustStay);
  const off = first < 0 ? sample.layers : sample.layers.slice(0, first);
  const stay = first < 0 ? [] : sample.layers.slice(first);
  const thickness = off.reduce((sum, l) => sum + l.thickness, 0);
  return { off, stay, thickness, residueThickness: residueThickness(thickness) };
}

/** The upper layers with their top eaten away until `remaining` m of them are left. */
export function remainingLayers(
  off: readonly LayerSample[],
  remaining: number,
): { layer: LayerSample; thickness: number }[] {
  const result: { layer: LayerSample; thickness: number }[] = [];
  let left = remaining;
  for (let i = off.length - 1; i >= 0 && left > 0; i--) {
    const last = i === 0;
    const thickness = last ? left : Math.min(left, off[i].thickness);
    if (thickness > 1e-9) result.unshift({ layer: off[i], thickness });
    left -= thickness;
  }
  return result;
}
