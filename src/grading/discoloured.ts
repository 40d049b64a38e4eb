import { colourDifference, type Lab } from "./colour-difference.ts";

/** ΔE00 against the bare reference from which metal counts as discoloured (own convention, docs/nomenclature.md). */
export const DISCOLOURED_FROM = 3;

/** True where a cleaned face differs from the bare reference by more than a careful eye lets pass. */
export function isDiscoloured(face: Lab, bareReference: Lab): boolean {
  return colourDifference(face, bareReference) > DISCOLOURED_FROM;
}
