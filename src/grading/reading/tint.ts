import { normalCdf } from "#numerics";
import { colourDifference, type Lab } from "../colour-difference.ts";
import { labFromLinear } from "../colour-space.ts";
import { DISCOLOURED_FROM } from "../discoloured.ts";
import { type BarePart, meanWithout } from "./bare-part.ts";
import { jackknife, type Measured } from "./estimate.ts";
import type { Reference } from "./reference.ts";

/** Colour of a patch's bare part against the bare reference. */
export interface Tint {
  /** CIELAB D65/2° of the bare part */
  readonly lab: Lab;
  /** ΔE00 */
  readonly difference: Measured;
  /** chance that the difference is above the bound of "discoloured" */
  readonly discoloured: number;
  /** 1 where the colour went towards the coat, as a thin even film would take it; 0 across; −1 away from it */
  readonly towardsCoat: number;
}

/** Standard deviation of ΔE00 between two places of a photograph without glare (shared/grading: mean error 0.52). */
const LIGHT_SPREAD = 0.6;

/**
 * Tint of a patch's bare part: ΔE00 of its mean colour from the bare reference.
 *
 * Units: ΔE00 1; uncertainty from leaving out one of 3 × 3 parts at a time, and 0.6 for the light. Discoloured from
 * ΔE00 3 on. Range: the bare part of a patch. Errors: none. Source: ISO/CIE 11664-6; bound docs/nomenclature.md.
 */
export function tintOf(part: BarePart, bare: Reference, coat: Reference): Tint {
  const lab = labFromLinear(meanWithout(part, -1));
  const value = colourDifference(lab, bare.lab);
  const held = part.luminance.map((list, k) => (list.length === 0 ? -1 : k)).filter((k) => k >= 0);
  const left = held.length < 2 ? [] : held.map((k) => colourDifference(labFromLinear(meanWithout(part, k)), bare.lab));
  const uncertainty = Math.hypot(jackknife(left), LIGHT_SPREAD);
  return {
    lab,
    difference: { value, uncertainty },
    discoloured: normalCdf((value - DISCOLOURED_FROM) / uncertainty),
    towardsCoat: cosine(lab, bare.lab, coat.lab),
  };
}

/** Cosine between the way of the face and the way of the coat, both from the bare reference; 0 without either. */
function cosine(face: Lab, bare: Lab, coat: Lab): number {
  const a = [face.L - bare.L, face.a - bare.a, face.b - bare.b] as const;
  const b = [coat.L - bare.L, coat.a - bare.a, coat.b - bare.b] as const;
  const length = Math.hypot(...a) * Math.hypot(...b);
  return length === 0 ? 0 : (a[0] * b[0] + a[1] * b[1] + a[2] * b[2]) / length;
}
