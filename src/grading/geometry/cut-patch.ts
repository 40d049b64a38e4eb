import { fromSI, invalid, requirePositive } from "#units";
import { decodeCode } from "../colour-space.ts";
import type { Photo } from "../frame.ts";
import type { PatchView } from "../reading/view.ts";
import type { PlateRectangle } from "./coarse-plate.ts";
import { widthInDeviations } from "./edge-width.ts";
import { type PlateMap, slopesAt } from "./pose.ts";

export interface CutOptions {
  readonly pixelsPerMm: number;
  /** m around the rectangle that is cut out as well; 0 when left out */
  readonly margin?: number;
  /** m, edge width of the markers between 10 % and 90 % (`FrameView.edgeWidth`); 0 when left out */
  readonly edgeWidth?: number;
}

const linear = Float64Array.from({ length: 256 }, (_, code) => decodeCode(code / 255));
/** largest cut, pixels */
const largest = 16e6;

/**
 * A rectangle of the plate cut out of a photo and rectified: each pixel is the mean linear light over its square of the
 * plate, rows from the top. rectangle: m; result: linear red, green, blue in the photo's own primaries.
 * Range: cuts of up to 16 million pixels; outside the picture its nearest pixel counts.
 * Errors: InvalidInput for a rectangle or scale without extent. Source: own.
 */
export function cutPatch(photo: Photo, map: PlateMap, rectangle: PlateRectangle, options: CutOptions): PatchView {
  const pixelsPerMm = requirePositive("pixels per mm", options.pixelsPerMm, "1/mm");
  const margin = Math.round(fromSI(options.margin ?? 0, "mm") * pixelsPerMm);
  const across = requirePositive("patch width", fromSI(rectangle.width, "mm"), "mm");
  const up = requirePositive("patch height", fromSI(rectangle.height, "mm"), "mm");
  const width = Math.max(1, Math.round(across * pixelsPerMm)) + 2 * margin;
  const height = Math.max(1, Math.round(up * pixelsPerMm)) + 2 * margin;
  if (width * height > largest) invalid("cut", width * height, "px", `must have at most ${largest} px`);

  const pitchX = rectangle.width / (width - 2 * margin);
  const pitchY = rectangle.height / (height - 2 * margin);
  const left = rectangle.x - margin * pitchX;
  const top = rectangle.y + rectangle.height + margin * pitchY;
  // Pixels of the photo under one of the cut decide how often it is looked at.
  const [a, b, c, d] = slopesAt(map, { x: rectangle.x + rectangle.width / 2, y: rectangle.y + rectangle.height / 2 });
  const steps = Math.min(
    16,
    Math.max(2, Math.ceil(1.5 * Math.max(Math.hypot(a, c) * pitchX, Math.hypot(b, d) * pitchY))),
  );

  const rgb = new Float32Array(3 * width * height);
  const u = new Float64Array(2 * (width + 1));
  const v = new Float64Array(2 * (width + 1));
  const trace = (row: number, line: number): void => {
    for (let column = 0; column <= width; column += 1) {
      const at = map.toPixel(left + column * pitchX, top - row * pitchY);
      u[line * (width + 1) + column] = at.u;
      v[line * (width + 1) + column] = at.v;
    }
  };
  trace(0, 0);
  for (let row = 0; row < height; row += 1) {
    trace(row + 1, (row + 1) % 2);
    const over = (row % 2) * (width + 1);
    const under = ((row + 1) % 2) * (width + 1);
    for (let column = 0; column < width; column += 1) {
      const a0 = over + column;
      const a2 = under + column;
      const out = 3 * (row * width + column);
      for (let i = 0; i < steps; i += 1) {
        const down = (i + 0.5) / steps;
        // left and right end of this line through the pixel
        const u0 = (1 - down) * u[a0]! + down * u[a2]!;
        const v0 = (1 - down) * v[a0]! + down * v[a2]!;
        const du = ((1 - down) * u[a0 + 1]! + down * u[a2 + 1]! - u0) / steps;
        const dv = ((1 - down) * v[a0 + 1]! + down * v[a2 + 1]! - v0) / steps;
        for (let j = 0; j < steps; j += 1) addLight(photo, u0 + (j + 0.5) * du, v0 + (j + 0.5) * dv, rgb, out);
      }
      for (let channel = 0; channel < 3; channel += 1) rgb[out + channel]! /= steps * steps;
    }
  }
  const blur = fromSI(options.edgeWidth ?? 0, "mm") / widthInDeviations;
  return { width, height, rgb, pixelsPerMm, margin, blur };
}

/** Adds the light between the middles of four pixels. The innermost loop of all: nothing is made anew in it. */
function addLight(photo: Photo, u: number, v: number, out: Float32Array, at: number): void {
  const { width, height, rgb } = photo;
  const c = Math.floor(u - 0.5);
  const r = Math.floor(v - 0.5);
  const right = u - 0.5 - c;
  const down = v - 0.5 - r;
  const c0 = c < 0 ? 0 : c >= width ? width - 1 : c;
  const c1 = c + 1 < 0 ? 0 : c + 1 >= width ? width - 1 : c + 1;
  const r0 = width * (r < 0 ? 0 : r >= height ? height - 1 : r);
  const r1 = width * (r + 1 < 0 ? 0 : r + 1 >= height ? height - 1 : r + 1);
  const upperLeft = 3 * (r0 + c0);
  const upperRight = 3 * (r0 + c1);
  const lowerLeft = 3 * (r1 + c0);
  const lowerRight = 3 * (r1 + c1);
  for (let k = 0; k < 3; k += 1) {
    const upper = (1 - right) * linear[rgb[upperLeft + k]!]! + right * linear[rgb[upperRight + k]!]!;
    const lower = (1 - right) * linear[rgb[lowerLeft + k]!]! + right * linear[rgb[lowerRight + k]!]!;
    out[at + k]! += (1 - down) * upper + down * lower;
  }
}
