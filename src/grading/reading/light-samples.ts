import { invalid } from "#units";
import type { GreyStep } from "../frame.ts";
import { type GreySample, type LayerSample, type PatchView, requireView } from "./view.ts";

/** Where a patch lies on its coupon, m from the lower left corner to the patch's lower left corner. */
export interface PatchPlace {
  readonly patch: number;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Linear light of code 253 of 255: what is above cannot be told from white. */
const CLIPPED = 0.984;
/** Share of a grey step on each side that its edges and blur take. */
const STEP_RIM = 0.2;
/** mm around a patch that its ragged outline and blur take. */
const OUTLINE_MM = 0.4;

/** Mean of the middle nine tenths by brightness: specks and scratches count not. */
function trimmedMean(rgb: Float32Array, pixels: readonly number[]): [number, number, number] {
  const ordered = [...pixels].sort((a, b) => rgb[3 * a + 1]! - rgb[3 * b + 1]!);
  const cut = Math.floor(ordered.length / 20);
  const kept = ordered.slice(cut, ordered.length - cut);
  const mean: [number, number, number] = [0, 0, 0];
  for (const i of kept) for (let c = 0; c < 3; c += 1) mean[c]! += rgb[3 * i + c]! / kept.length;
  return mean;
}

const isClipped = (rgb: Float32Array, i: number): boolean =>
  rgb[3 * i]! > CLIPPED || rgb[3 * i + 1]! > CLIPPED || rgb[3 * i + 2]! > CLIPPED;

/** Share of a view's pixels, less its margin, that are clipped in any channel. view: light as written, not calibrated. */
export function clippedShareOf(view: PatchView): number {
  const { width, height, margin, rgb } = requireView(view);
  let count = 0;
  for (let j = margin; j < height - margin; j += 1)
    for (let i = margin; i < width - margin; i += 1) if (isClipped(rgb, j * width + i)) count += 1;
  return count / ((width - 2 * margin) * (height - 2 * margin));
}

/**
 * A grey step as light: its middle, three fifths each way. view: the step cut out without margin, light as written.
 * Errors: InvalidInput for a view that is too small.
 */
export function greySampleOf(step: GreyStep, view: PatchView): GreySample {
  const { width, height, rgb } = requireView(view);
  const [cutX, cutY] = [Math.round(STEP_RIM * width), Math.round(STEP_RIM * height)];
  const pixels: number[] = [];
  for (let j = cutY; j < height - cutY; j += 1) for (let i = cutX; i < width - cutX; i += 1) pixels.push(j * width + i);
  if (pixels.length < 9)
    invalid("grey step", `${width} × ${height}`, "px", "must show at least 9 pixels in its middle");
  return {
    x: step.x + step.width / 2,
    y: step.y + step.height / 2,
    rgb: trimmedMean(rgb, pixels),
    lightness: step.lightness,
    clippedShare: pixels.filter((i) => isClipped(rgb, i)).length / pixels.length,
  };
}

/**
 * Untouched layer on the four sides of a patch, as light: a band from 0.4 mm outside its outline to the end of the margin,
 * corners left out. view: the patch cut out with a margin of at least 0.8 mm that reaches no neighbour, light as written.
 * Errors: InvalidInput for a smaller margin.
 */
export function layerSamplesOf(place: PatchPlace, view: PatchView): LayerSample[] {
  const { width, height, margin, rgb, pixelsPerMm } = requireView(view);
  const band = margin - Math.round(OUTLINE_MM * pixelsPerMm);
  if (band < Math.max(2, 0.3 * pixelsPerMm)) invalid("margin", margin / pixelsPerMm, "mm", "must be 0.8 mm or more");
  const sides: number[][] = [[], [], [], []];
  for (let j = 0; j < height; j += 1) {
    for (let i = 0; i < width; i += 1) {
      const [left, top] = [i, j];
      const [right, low] = [width - 1 - i, height - 1 - j];
      const inX = left >= margin && right >= margin;
      const inY = top >= margin && low >= margin;
      if (inY && left < band) sides[0]!.push(j * width + i);
      else if (inY && right < band) sides[1]!.push(j * width + i);
      else if (inX && top < band) sides[2]!.push(j * width + i);
      else if (inX && low < band) sides[3]!.push(j * width + i);
    }
  }
  const out = (margin - band / 2) / pixelsPerMm / 1000;
  const [x, y] = [place.x + place.width / 2, place.y + place.height / 2];
  const places = [
    [place.x - out, y],
    [place.x + place.width + out, y],
    [x, place.y + place.height + out],
    [x, place.y - out],
  ] as const;
  return places.map(([px, py], k) => ({ patch: place.patch, x: px, y: py, rgb: trimmedMean(rgb, sides[k]!) }));
}
