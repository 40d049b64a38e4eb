import { requireInRange } from "#units";
import type { Lab } from "./colour-difference.ts";
import { decodeCode, labFromLinear } from "./colour-space.ts";

/**
 * Linear light of one sRGB code. Equation: c/12.92 up to 0.04045, else ((c + 0.055)/1.055)^2.4.
 * code 0 to 1; result 0 to 1. Throws InvalidInput outside. Source: IEC 61966-2-1.
 */
export function linearFromSrgb(code: number): number {
  return decodeCode(requireInRange("sRGB code", code, "", 0, 1));
}

/**
 * CIELAB (D65, 2°) of an sRGB colour, codes 0 to 1 each.
 * Throws InvalidInput outside. Source: IEC 61966-2-1 for the primaries, ISO/CIE 11664-4 for L*, a*, b*.
 */
export function labFromSrgb(red: number, green: number, blue: number): Lab {
  return labFromLinear([linearFromSrgb(red), linearFromSrgb(green), linearFromSrgb(blue)]);
}
