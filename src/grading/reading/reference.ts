import { invalid } from "#units";
import { colourDifference, type Lab } from "../colour-difference.ts";
import { labFromLinear } from "../colour-space.ts";
import { innerView, type PatchView } from "./view.ts";

/** How a face looks: mean reflectance in linear sRGB and how it scatters from pixel to pixel. */
export interface Reference {
  readonly rgb: readonly [number, number, number];
  /** 3 × 3, row by row: covariance of the pixels */
  readonly scatter: readonly number[];
  readonly lab: Lab;
}

/** Scatter of a face of which only the colour is known: 5 % of its light, all channels together (own choice). */
const USUAL_TEXTURE = 0.05;

/** A reference from a colour alone. rgb: linear sRGB reflectance. Errors: InvalidInput for a number that is not finite. */
export function referenceOfColour(rgb: readonly [number, number, number]): Reference {
  if (!rgb.every((v) => Number.isFinite(v))) invalid("reference colour", "not a number", "", "must be finite");
  const scatter = rgb.flatMap((a) => rgb.map((b) => USUAL_TEXTURE ** 2 * a * b));
  return { rgb, scatter, lab: labFromLinear(rgb) };
}

/**
 * A reference from a calibrated view of one patch, less its margin and rim: trimmed means (tenth of the pixels by
 * brightness off at either end) and the covariance of all. Errors: InvalidInput for a view that is too small.
 */
export function referenceOf(view: PatchView): Reference {
  const { rgb } = innerView(view);
  const count = rgb.length / 3;
  const sums = Float64Array.from({ length: count }, (_, i) => rgb[3 * i]! + rgb[3 * i + 1]! + rgb[3 * i + 2]!);
  const ordered = sums.slice().sort();
  const [low, high] = [ordered[Math.floor(0.1 * count)]!, ordered[Math.ceil(0.9 * count) - 1]!];
  const mean: [number, number, number] = [0, 0, 0];
  const whole = [0, 0, 0];
  let kept = 0;
  for (let i = 0; i < count; i += 1) {
    const keep = sums[i]! >= low && sums[i]! <= high;
    if (keep) kept += 1;
    for (let c = 0; c < 3; c += 1) {
      whole[c]! += rgb[3 * i + c]! / count;
      if (keep) mean[c]! += rgb[3 * i + c]!;
    }
  }
  for (let c = 0; c < 3; c += 1) mean[c]! /= kept;
  const scatter = new Array<number>(9).fill(0);
  for (let i = 0; i < count; i += 1) {
    for (let a = 0; a < 3; a += 1) {
      const off = rgb[3 * i + a]! - whole[a]!;
      for (let b = 0; b < 3; b += 1) scatter[3 * a + b]! += (off * (rgb[3 * i + b]! - whole[b]!)) / count;
    }
  }
  return { rgb: mean, scatter, lab: labFromLinear(mean) };
}

/** ΔE00 between two references. */
export const referenceDifference = (bare: Reference, coat: Reference): number => colourDifference(bare.lab, coat.lab);
