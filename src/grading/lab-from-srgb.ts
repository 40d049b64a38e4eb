import { requireInRange } from "#units";
import type { Lab } from "./colour-difference.ts";

/** White of D65, 2° observer (ISO/CIE 11664-2). */
const WHITE = { x: 0.95047, y: 1, z: 1.08883 } as const;

/**
 * Linear light of one sRGB code. Equation: c/12.92 up to 0.04045, else ((c + 0.055)/1.055)^2.4.
 * code 0 to 1; result 0 to 1. Throws InvalidInput outside. Source: IEC 61966-2-1.
 */
export function linearFromSrgb(code: number): number {
  requireInRange("sRGB code", code, "", 0, 1);
  return code <= 0.04045 ? code / 12.92 : ((code + 0.055) / 1.055) ** 2.4;
}

const cubeRoot = (t: number): number => (t > (6 / 29) ** 3 ? Math.cbrt(t) : t / (3 * (6 / 29) ** 2) + 4 / 29);

/**
 * CIELAB (D65, 2°) of an sRGB colour, codes 0 to 1 each.
 * Throws InvalidInput outside. Source: IEC 61966-2-1 for the primaries, ISO/CIE 11664-4 for L*, a*, b*.
 */
export function labFromSrgb(red: number, green: number, blue: number): Lab {
  const r = linearFromSrgb(red);
  const g = linearFromSrgb(green);
  const b = linearFromSrgb(blue);
  const x = cubeRoot((0.4124564 * r + 0.3575761 * g + 0.1804375 * b) / WHITE.x);
  const y = cubeRoot((0.2126729 * r + 0.7151522 * g + 0.072175 * b) / WHITE.y);
  const z = cubeRoot((0.0193339 * r + 0.119192 * g + 0.9503041 * b) / WHITE.z);
  return { L: 116 * y - 16, a: 500 * (x - y), b: 200 * (y - z) };
}
