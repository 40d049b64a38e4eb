import { quantiles } from "#numerics";
import type { BarePart } from "./bare-part.ts";
import { luminanceWithout } from "./bare-part.ts";
import { jackknife, type Measured } from "./estimate.ts";

/** Melted metal glints: bright spots stand out of its bare parts. No gloss units: nothing here was measured with a gloss meter. */
export interface Melt {
  /** 98 % quantile less median of bare luminance, over that median */
  readonly index: Measured;
  /** median less 2 % quantile over the median: what the metal's own texture would give upwards */
  readonly below: number;
  /** share of the bare area brighter than 1.25 times its median and the reference's own bright end */
  readonly brightShare: number;
}

const GLINT = 1.25;

function indexOf(luminance: Float32Array): number {
  const [middle, bright] = quantiles(luminance, [0.5, 0.98]);
  return (bright! - middle!) / Math.max(middle!, 1e-6);
}

/**
 * Melt index of a patch's bare part.
 *
 * Equation: (Q₉₈ − Q₅₀)/Q₅₀ of luminance over that of its surroundings; uncertainty by leaving out one of 3 × 3 parts at a time.
 * Units: 1. Range: the bare part of a patch; `referenceIndex` the same figure of the bare reference, 0 when unknown.
 * Errors: none. Source: own; shared/grading (area under the curve 0.96 on synthetic photographs).
 */
export function meltOf(part: BarePart, referenceIndex = 0): Melt {
  const all = luminanceWithout(part, -1);
  const whole = indexOf(all);
  const held = part.luminance.map((list, k) => (list.length === 0 ? null : k)).filter((k) => k !== null);
  const left = held.length < 2 ? [] : held.map((k) => indexOf(luminanceWithout(part, k)));
  const [dark, middle] = quantiles(all, [0.02, 0.5]);
  const from = middle! * Math.max(GLINT, 1 + 1.5 * referenceIndex);
  let bright = 0;
  for (const value of all) if (value > from) bright += 1;
  return {
    index: { value: whole, uncertainty: jackknife(left) },
    below: (middle! - dark!) / Math.max(middle!, 1e-6),
    brightShare: bright / all.length,
  };
}
