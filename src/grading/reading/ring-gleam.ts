import { luminanceWeights } from "../colour-space.ts";
import type { Reference } from "./reference.ts";
import type { PatchView } from "./view.ts";

/** mm around a patch that its ragged outline and blur take. */
const OUTLINE_MM = 0.4;
/** Least pixels beyond it that say anything. */
const LEAST_PIXELS = 2;
const [RED, GREEN, BLUE] = luminanceWeights("srgb");

/**
 * How much brighter the layer around a patch is than the coated reference, as a share of white: what lies there gleams,
 * and bare metal beside it gleams no less. 0 where it is as dark, or where the view has no margin wide enough to say.
 * view: with its margin, in reflectance. Errors: none. Source: own; glare adds the same light whatever it lies on.
 */
export function ringGleam(view: PatchView, coat: Reference): number {
  const { width, height, margin, rgb, pixelsPerMm } = view;
  const band = margin - Math.round(OUTLINE_MM * pixelsPerMm);
  if (band < LEAST_PIXELS) return 0;
  let [sum, count] = [0, 0];
  for (let j = 0; j < height; j += 1)
    for (let i = 0; i < width; i += 1) {
      if (Math.min(i, j, width - 1 - i, height - 1 - j) >= band) continue;
      const k = 3 * (j * width + i);
      sum += RED * rgb[k]! + GREEN * rgb[k + 1]! + BLUE * rgb[k + 2]!;
      count += 1;
    }
  const dark = RED * coat.rgb[0] + GREEN * coat.rgb[1] + BLUE * coat.rgb[2];
  return Math.max(0, sum / count - dark);
}
