import { depthOfFocus } from "#beam";
import type { Face, Lens, Metre, Ratio } from "#terms";
import { requirePositive } from "#units";

/** Share of the fluence that may be lost at the rim of a field, once by focus and once by incidence (usual: 5 or 10 %). */
export const rimFall: Ratio = 0.1;

/**
 * Width of a field on a curved face within which focus and incidence each cost at most the share q of the fluence:
 * W = min(F, 2·√(2R·s − s²), 2R·√(1 − (1 − q)²)), s = min(R, 2·z_R·√(q/(1 − q))): the fall of the arc fits into the
 * depth of focus to both sides, and the rim is hit at no more than acos(1 − q).
 * @param lens its field side F (m) and Rayleigh length z_R (m)
 * @param radius m, R of the face, convex or concave; null for a flat one
 * @returns m
 * Valid: focus of the lens in a plane, focus set half way down the arc. Throws InvalidInput when a length is not
 * positive. Source: ISO 11146-1 definitions; geometry.
 */
export function usableField(lens: Lens, radius: Metre | null): Metre {
  const side = requirePositive("field side", lens.fieldSide, "m");
  if (radius === null) return side;
  requirePositive("radius of the face", radius, "m");
  const fall = Math.min(radius, 2 * depthOfFocus(lens.rayleighLength, rimFall));
  const byFocus = 2 * Math.sqrt(fall * (2 * radius - fall));
  const byAngle = 2 * radius * Math.sqrt(1 - (1 - rimFall) ** 2);
  return Math.min(side, byFocus, byAngle);
}

/** m, smallest radius among curved faces and holes; null where all is flat or no radius is given. */
export function tightestRadius(faces: readonly Face[]): Metre | null {
  const radii = faces.flatMap((face) => (face.radius === null ? [] : [face.radius]));
  return radii.length === 0 ? null : Math.min(...radii);
}
