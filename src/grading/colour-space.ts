import { adjugate3, type Matrix3 } from "#numerics";
import { requireOneOf } from "#units";
import type { Lab } from "./colour-difference.ts";

/** Colour spaces that phones write: same curve, other primaries. */
export type ColourSpace = "srgb" | "display-p3";

/** CIE XYZ, 2° observer, relative: Y of the white is 1. */
export interface Xyz {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** White of D65, 2° observer (ISO/CIE 11664-2). */
const WHITE_D65: Xyz = { x: 0.95047, y: 1, z: 1.08883 };

/** Rows X, Y, Z over linear red, green, blue; white D65 (IEC 61966-2-1; Display P3 by its published primaries). */
const TO_XYZ: Readonly<Record<ColourSpace, Matrix3>> = {
  srgb: [0.4124564, 0.3575761, 0.1804375, 0.2126729, 0.7151522, 0.072175, 0.0193339, 0.119192, 0.9503041],
  "display-p3": [0.48657095, 0.26566769, 0.19821729, 0.22897456, 0.69173852, 0.07928691, 0, 0.04511338, 1.04394437],
};

/** Inverse of a 3 × 3 matrix, row by row. */
function inverse(m: Matrix3): number[] {
  const { adjugate, determinant } = adjugate3(m);
  return adjugate.map((value) => value / determinant);
}

const FROM_XYZ: Readonly<Record<ColourSpace, readonly number[]>> = {
  srgb: inverse(TO_XYZ.srgb),
  "display-p3": inverse(TO_XYZ["display-p3"]),
};

/** Share of linear red, green and blue in luminance Y of a colour space. */
export function luminanceWeights(space: ColourSpace): readonly [number, number, number] {
  const m = TO_XYZ[space];
  return [m[3], m[4], m[5]];
}

/**
 * Linear light of a code. Equation: c/12.92 up to 0.04045, else ((c + 0.055)/1.055)^2.4; below 0 mirrored.
 * code 1; result 1. Range: any finite. Errors: none. Source: IEC 61966-2-1 (Display P3 uses the same curve).
 */
export function decodeCode(code: number): number {
  if (code < 0) return -decodeCode(-code);
  return code <= 0.04045 ? code / 12.92 : ((code + 0.055) / 1.055) ** 2.4;
}

/** Code of linear light, the inverse of `decodeCode`; linear 1; result 1. Errors: none. Source: IEC 61966-2-1. */
export function encodeLinear(linear: number): number {
  if (linear < 0) return -encodeLinear(-linear);
  return linear <= 0.04045 / 12.92 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055;
}

const LINEAR_OF_BYTE = Float32Array.from({ length: 256 }, (_, code) => decodeCode(code / 255));

/** Linear light of bytes 0 to 255, one by one, by table. Errors: none. Source: IEC 61966-2-1. */
export function linearOfBytes(bytes: Uint8Array | Uint8ClampedArray): Float32Array {
  const linear = new Float32Array(bytes.length);
  for (let i = 0; i < bytes.length; i += 1) linear[i] = LINEAR_OF_BYTE[bytes[i]!]!;
  return linear;
}

/**
 * XYZ of linear red, green and blue (1 each; white is 1, 1, 1). Range: any finite. Errors: InvalidInput for an unknown
 * space. Source: IEC 61966-2-1.
 */
export function xyzFromLinear(red: number, green: number, blue: number, space: ColourSpace = "srgb"): Xyz {
  const m = TO_XYZ[requireOneOf("colour space", space, ["srgb", "display-p3"])];
  return {
    x: m[0]! * red + m[1]! * green + m[2]! * blue,
    y: m[3]! * red + m[4]! * green + m[5]! * blue,
    z: m[6]! * red + m[7]! * green + m[8]! * blue,
  };
}

/** Linear red, green and blue of XYZ, the inverse of `xyzFromLinear`; out of gamut below 0 or above 1. */
export function linearFromXyz({ x, y, z }: Xyz, space: ColourSpace = "srgb"): [number, number, number] {
  const m = FROM_XYZ[requireOneOf("colour space", space, ["srgb", "display-p3"])];
  return [m[0]! * x + m[1]! * y + m[2]! * z, m[3]! * x + m[4]! * y + m[5]! * z, m[6]! * x + m[7]! * y + m[8]! * z];
}

const EDGE = 6 / 29;
const cubeRoot = (t: number): number => (t > EDGE ** 3 ? Math.cbrt(t) : t / (3 * EDGE ** 2) + 4 / 29);
const cube = (f: number): number => (f > EDGE ? f ** 3 : 3 * EDGE ** 2 * (f - 4 / 29));

/** CIELAB (D65, 2°) of XYZ with Y of the white 1. Range: any finite. Errors: none. Source: ISO/CIE 11664-4. */
export function labFromXyz(colour: Xyz): Lab {
  const x = cubeRoot(colour.x / WHITE_D65.x);
  const y = cubeRoot(colour.y / WHITE_D65.y);
  const z = cubeRoot(colour.z / WHITE_D65.z);
  return { L: 116 * y - 16, a: 500 * (x - y), b: 200 * (y - z) };
}

/** XYZ of CIELAB (D65, 2°), the inverse of `labFromXyz`. Errors: none. Source: ISO/CIE 11664-4. */
export function xyzFromLab({ L, a, b }: Lab): Xyz {
  const y = (L + 16) / 116;
  return { x: WHITE_D65.x * cube(y + a / 500), y: cube(y), z: WHITE_D65.z * cube(y - b / 200) };
}

/** Luminance Y (white 1) of a lightness L* 0 to 100. Errors: none. Source: ISO/CIE 11664-4. */
export const luminanceOfLightness = (lightness: number): number => cube((lightness + 16) / 116);

/** Lightness L* of a luminance Y (white 1). Errors: none. Source: ISO/CIE 11664-4. */
export const lightnessOfLuminance = (luminance: number): number => 116 * cubeRoot(luminance) - 16;

/** CIELAB of linear sRGB light. Errors: none. */
export const labFromLinear = (rgb: ArrayLike<number>): Lab =>
  labFromXyz(xyzFromLinear(rgb[0]!, rgb[1]!, rgb[2]!, "srgb"));
