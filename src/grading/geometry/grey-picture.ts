import type { Photo } from "../frame.ts";
import type { GreyPicture } from "./found-marker.ts";

/** A part of a picture, px, whole numbers. */
export interface Crop {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/**
 * Grey codes of a part of a photo for the search, each the mean of `shrink` × `shrink` pixels (what is left over at the
 * right and lower edge falls away). Codes, not light: the search only needs contrast. shrink: whole number from 1.
 */
export function greyPicture(photo: Photo, shrink: number, crop?: Crop): GreyPicture {
  const { left, top, width, height } = crop ?? { left: 0, top: 0, width: photo.width, height: photo.height };
  const columns = Math.floor(width / shrink);
  const rows = Math.floor(height / shrink);
  const data = new Uint8Array(columns * rows);
  const whole = 4 * shrink * shrink;
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      let sum = 0;
      for (let r = 0; r < shrink; r += 1) {
        let i = 3 * ((top + row * shrink + r) * photo.width + left + column * shrink);
        for (let c = 0; c < shrink; c += 1, i += 3) sum += photo.rgb[i]! + 2 * photo.rgb[i + 1]! + photo.rgb[i + 2]!;
      }
      data[row * columns + column] = Math.round(sum / whole);
    }
  }
  return { width: columns, height: rows, data };
}
