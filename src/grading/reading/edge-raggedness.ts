import { median } from "#numerics";
import type { Measured } from "./estimate.ts";
import type { PatchView } from "./view.ts";

/** Length of a side at either end that the corners round off, as a share. */
const CORNER = 0.15;
/** mm inside the planned square up to which the outline is looked for. */
const INWARD_MM = 1.5;
/** mm of outline that move together besides the blur (own choice, for the uncertainty). */
const TOGETHER_MM = 0.3;
const LEAST_FOUND = 0.7;

/**
 * Raggedness of a patch's outline: standard deviation of its distance from a straight line along each side.
 *
 * Equation: on each scan line across a side, the first place from outside where u falls through ½, between pixels by
 * straight lines; line by least squares, points beyond 2.5 spreads left out, spread by the median deviation; root of the mean square over the
 * sides; uncertainty 1.17·value/√(2n) of a median deviation, n lengths of outline that move on their own, and a twentieth of a pixel.
 * Units: mm. Range: a view with a margin of 0.5 mm or more and u of all its pixels; null where fewer than two sides show
 * an outline on 70 % of their length (not cleaned, or no margin). The blur smooths what is finer than itself.
 * Errors: none. Source: own; shared/grading.
 */
export function edgeRaggedness(view: PatchView, u: Float32Array): Measured | null {
  const { width, height, margin, pixelsPerMm, blur } = view;
  if (margin < 0.5 * pixelsPerMm) return null;
  const depth = margin + Math.round(INWARD_MM * pixelsPerMm);
  const squares: number[] = [];
  let free = 0;
  for (const side of [0, 1, 2, 3]) {
    const along = side < 2 ? width : height;
    const cut = margin + Math.ceil(CORNER * (along - 2 * margin));
    const at = (line: number, d: number): number => {
      if (side === 0) return u[d * width + line]!;
      if (side === 1) return u[(height - 1 - d) * width + line]!;
      return side === 2 ? u[line * width + d]! : u[line * width + width - 1 - d]!;
    };
    const found: [number, number][] = [];
    for (let line = cut; line < along - cut; line += 1) {
      const place = crossing((d) => at(line, d), Math.min(depth, Math.floor((side < 2 ? height : width) / 2)));
      if (place !== null) found.push([line, place]);
    }
    if (found.length < Math.max(8, LEAST_FOUND * (along - 2 * cut))) continue;
    squares.push(offLine(found) ** 2);
    free += found.length / pixelsPerMm / (TOGETHER_MM + 2 * blur);
  }
  if (squares.length < 2) return null;
  const value = Math.sqrt(squares.reduce((sum, s) => sum + s, 0) / squares.length) / pixelsPerMm;
  return { value, uncertainty: Math.hypot((1.17 * value) / Math.sqrt(2 * Math.max(1, free)), 0.05 / pixelsPerMm) };
}

/** px from the outer end where u falls through ½ for good: two pixels in a row below it; null where it does not. */
function crossing(at: (d: number) => number, depth: number): number | null {
  if (at(0) <= 0.5) return null;
  for (let d = 1; d + 1 < depth; d += 1) {
    const [before, here] = [at(d - 1), at(d)];
    if (here <= 0.5 && at(d + 1) <= 0.5) return d - 1 + (before - 0.5) / Math.max(1e-9, before - here);
  }
  return null;
}

/** Standard deviation of points from their line by the median deviation: islands that touch the outline do not count; px. */
function offLine(points: readonly (readonly [number, number])[]): number {
  let kept = points;
  let offs: number[] = [];
  for (let round = 0; round < 3; round += 1) {
    const n = kept.length;
    const mx = kept.reduce((sum, p) => sum + p[0], 0) / n;
    const my = kept.reduce((sum, p) => sum + p[1], 0) / n;
    const slope =
      kept.reduce((sum, p) => sum + (p[0] - mx) * (p[1] - my), 0) / kept.reduce((sum, p) => sum + (p[0] - mx) ** 2, 0);
    offs = kept.map((p) => p[1] - my - slope * (p[0] - mx));
    const limit = 2.5 * 1.4826 * median(offs.map(Math.abs)) + 0.05;
    const next = kept.filter((_, i) => Math.abs(offs[i]!) <= limit);
    if (next.length === n || next.length < 4) break;
    kept = next;
  }
  return 1.4826 * median(offs.map(Math.abs));
}
