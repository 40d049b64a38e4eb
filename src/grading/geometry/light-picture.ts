import { decodeCode, luminanceWeights } from "../colour-space.ts";
import type { Photo } from "../frame.ts";

/** Luminance of a picture (or another mean of its colours), linear in light, 0 to 1. */
export interface LightPicture {
  readonly width: number;
  readonly height: number;
  /** of the pixel in this column and row; the nearest one outside the picture */
  pixel(column: number, row: number): number;
  /** between the middles of four pixels, at u, v px */
  at(u: number, v: number): number;
}

/** How a code, 0 to 1, becomes light; another one than the curve of the picture serves tests only. */
export type Decode = (code: number) => number;

/**
 * Linear red, green and blue are weighed by tables, so that a pixel costs three look-ups. weights: those of luminance
 * where none are given.
 */
export function lightPicture(
  photo: Photo,
  decode: Decode = decodeCode,
  weights: readonly [number, number, number] = luminanceWeights(photo.space),
): LightPicture {
  const { width, height, rgb } = photo;
  const [red, green, blue] = weights.map((weight) =>
    Float64Array.from({ length: 256 }, (_, code) => weight * decode(code / 255)),
  ) as [Float64Array, Float64Array, Float64Array];
  const pixel = (column: number, row: number): number => {
    const c = column < 0 ? 0 : column >= width ? width - 1 : column;
    const r = row < 0 ? 0 : row >= height ? height - 1 : row;
    const i = 3 * (r * width + c);
    return red[rgb[i]!]! + green[rgb[i + 1]!]! + blue[rgb[i + 2]!]!;
  };
  return {
    width,
    height,
    pixel,
    at(u, v) {
      const c = Math.floor(u - 0.5);
      const r = Math.floor(v - 0.5);
      const right = u - 0.5 - c;
      const down = v - 0.5 - r;
      const upper = (1 - right) * pixel(c, r) + right * pixel(c + 1, r);
      const lower = (1 - right) * pixel(c, r + 1) + right * pixel(c + 1, r + 1);
      return (1 - down) * upper + down * lower;
    },
  };
}
