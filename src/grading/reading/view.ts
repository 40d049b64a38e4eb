import { fromSI, invalid, requirePositive } from "#units";
import type { ColourSpace } from "../colour-space.ts";

/**
 * One patch cut out of a photograph and rectified: rows from the top, red, green and blue of each pixel in turn. As cut,
 * the numbers are linear light by the photograph's own curve and primaries; once calibrated they are reflectances in
 * linear sRGB light (a white sheet is 1, 1, 1).
 */
export interface PatchView {
  readonly width: number;
  readonly height: number;
  readonly rgb: Float32Array;
  readonly pixelsPerMm: number;
  /** pixels on each side that show what lies around the planned square; 0 where the cut ends at the square */
  readonly margin: number;
  /** mm, standard deviation of the blur, from the edge width of the markers */
  readonly blur: number;
}

/** Light from one place of the frame: m from the coupon's lower left corner; linear light of the photograph. */
export interface LightSample {
  readonly x: number;
  readonly y: number;
  readonly rgb: readonly [number, number, number];
}

/** A grey step as photographed. */
export interface GreySample extends LightSample {
  /** CIELAB lightness of the step, nominal or measured */
  readonly lightness: number;
  /** share of its pixels with a code at the upper end in any channel */
  readonly clippedShare: number;
}

/** Untouched layer beside a patch. */
export interface LayerSample extends LightSample {
  readonly patch: number;
}

/** What the light of one photograph is found from. */
export interface LightSamples {
  readonly greys: readonly GreySample[];
  readonly layer: readonly LayerSample[];
  readonly greysMeasured: boolean;
  readonly space: ColourSpace;
}

/** The view itself, checked: size, data and scale fit together. Throws InvalidInput. */
export function requireView(view: PatchView): PatchView {
  requirePositive("pixels per mm", view.pixelsPerMm, "1/mm");
  if (view.width < 1 || view.height < 1 || view.rgb.length !== 3 * view.width * view.height) {
    invalid("patch view", `${view.width} × ${view.height}`, "px", `must come with ${view.rgb.length / 3} pixels`);
  }
  if (!(view.margin >= 0) || 2 * view.margin >= Math.min(view.width, view.height)) {
    invalid("margin", view.margin, "px", "must leave some of the patch");
  }
  if (!(view.blur >= 0)) invalid("blur", view.blur, "mm", "must be 0 or above");
  return view;
}

/** mm along each edge that count as rim, not as patch (docs/nomenclature.md, residueFraction). */
const RIM_MM = 1;

/** px each way inside the rim of a patch that is read, at least. */
const LEAST_INNER = 8;

/** Whether a patch (m) shows enough of itself inside its rim at a scale (px/mm) to be read. */
export function readable(patch: { readonly width: number; readonly height: number }, pixelsPerMm: number): boolean {
  const [across, up] = [patch.width, patch.height].map((side) => Math.round(fromSI(side, "mm") * pixelsPerMm));
  return Math.min(across!, up!) - 2 * Math.round(RIM_MM * pixelsPerMm) >= LEAST_INNER;
}

/** Columns and rows of the patch without its margin and rim: from inclusive, to exclusive. Throws InvalidInput. */
function innerBounds(view: PatchView): { left: number; right: number; top: number; bottom: number } {
  const cut = requireView(view).margin + Math.round(RIM_MM * view.pixelsPerMm);
  const bounds = { left: cut, right: view.width - cut, top: cut, bottom: view.height - cut };
  if (Math.min(bounds.right - bounds.left, bounds.bottom - bounds.top) < LEAST_INNER) {
    invalid(
      "patch",
      `${view.width} × ${view.height}`,
      "px",
      `must show at least ${LEAST_INNER} × ${LEAST_INNER} pixels inside its 1 mm rim`,
    );
  }
  return bounds;
}

/** The inner part as a view of its own, without margin and rim. Throws InvalidInput. */
export function innerView(view: PatchView): PatchView {
  const { left, right, top, bottom } = innerBounds(view);
  const width = right - left;
  const rgb = new Float32Array(3 * width * (bottom - top));
  for (let row = top; row < bottom; row += 1) {
    const from = 3 * (row * view.width + left);
    rgb.set(view.rgb.subarray(from, from + 3 * width), 3 * width * (row - top));
  }
  return { ...view, width, height: bottom - top, rgb, margin: 0 };
}
