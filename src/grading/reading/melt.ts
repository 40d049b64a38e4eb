import type { BarePart } from "./bare-part.ts";
import { Counted } from "./counted.ts";
import { jackknife, type Measured } from "./estimate.ts";

/** Melted metal glints: bright spots stand out of its bare parts. No gloss units: nothing here was measured with a gloss meter. */
export interface Melt {
  /** 99.5 % quantile less median of bare luminance, over that median */
  readonly index: Measured;
  /** median less 0.5 % quantile over the median: what the metal's own texture would give upwards */
  readonly below: number;
  /** share of the bare area brighter than 1.25 times its median and the reference's own bright end */
  readonly brightShare: number;
}

const GLINT = 1.25;
/** Quantiles at either end: glints are few, and further out they stand clearer of the metal's own texture (own measurement). */
const TOP = 0.995;
const LOW = 0.005;

/**
 * Melt index of a patch's bare part.
 *
 * Equation: (Q₉₉.₅ − Q₅₀)/Q₅₀ of luminance over that of its surroundings; uncertainty by leaving out one of 3 × 3 parts at a time.
 * Units: 1. Range: the bare part of a patch; `referenceIndex` the same figure of the bare reference, 0 when unknown.
 * Errors: none. Source: own; docs/grading.md for how well it tells.
 */
export function meltOf(part: BarePart, referenceIndex = 0): Melt {
  const parts = part.luminance.map(Counted.of);
  const all = Counted.sum(parts);
  const indexWithout = (left?: Counted): number => {
    const middle = all.quantile(0.5, left);
    return (all.quantile(TOP, left) - middle) / Math.max(middle, 1e-6);
  };
  const held = parts.filter(({ total }) => total > 0);
  const middle = all.quantile(0.5);
  return {
    index: { value: indexWithout(), uncertainty: held.length < 2 ? 0 : jackknife(held.map(indexWithout)) },
    below: (middle - all.quantile(LOW)) / Math.max(middle, 1e-6),
    brightShare: all.shareAbove(middle * Math.max(GLINT, 1 + 1.2 * referenceIndex)),
  };
}
