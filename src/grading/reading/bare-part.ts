import { luminanceWeights } from "../colour-space.ts";
import { PARTS, partOf } from "./estimate.ts";
import type { PatchView } from "./view.ts";

const [RED, GREEN, BLUE] = luminanceWeights("srgb");

/** Pixels of bare metal in a patch, sorted into 3 × 3 parts. */
export interface BarePart {
  /** share of the patch's pixels */
  readonly share: number;
  /** luminance by part */
  readonly luminance: readonly Float32Array[];
  /** sums of reflectance by part, linear sRGB */
  readonly sums: readonly (readonly [number, number, number])[];
}

/** Pixels nearer than this to the coat hold some of it at their edges and say nothing of the metal. */
const BARE_BELOW = 0.35;
/** Fewer bare pixels say nothing of the metal. */
const LEAST_PIXELS = 60;

/**
 * The bare pixels of an inner view, or null where there are too few. A pixel is bare where it and its four neighbours are
 * nearer to the patch's own metal than 0.35 of the way to the coat. view: inner, in reflectance; u: its places between
 * bare and coated. Errors: none.
 */
export function barePart(view: PatchView, u: Float32Array): BarePart | null {
  const { width, height, rgb } = view;
  const lists: number[][] = Array.from({ length: PARTS }, () => []);
  const sums: [number, number, number][] = Array.from({ length: PARTS }, () => [0, 0, 0]);
  let count = 0;
  for (let i = 0; i < u.length; i += 1) {
    const column = i % width;
    const near =
      u[i]! < BARE_BELOW &&
      (column === 0 || u[i - 1]! < BARE_BELOW) &&
      (column === width - 1 || u[i + 1]! < BARE_BELOW) &&
      (i < width || u[i - width]! < BARE_BELOW) &&
      (i >= u.length - width || u[i + width]! < BARE_BELOW);
    if (!near) continue;
    count += 1;
    const part = partOf(i, width, height);
    lists[part]!.push(RED * rgb[3 * i]! + GREEN * rgb[3 * i + 1]! + BLUE * rgb[3 * i + 2]!);
    for (let c = 0; c < 3; c += 1) sums[part]![c]! += rgb[3 * i + c]!;
  }
  if (count < LEAST_PIXELS) return null;
  return { share: count / u.length, luminance: lists.map((list) => Float32Array.from(list)), sums };
}

/** Luminances of all parts but one (−1: of all). */
export function luminanceWithout(part: BarePart, left: number): Float32Array {
  const lists = part.luminance.filter((_, k) => k !== left);
  const out = new Float32Array(lists.reduce((sum, list) => sum + list.length, 0));
  let at = 0;
  for (const list of lists) {
    out.set(list, at);
    at += list.length;
  }
  return out;
}

/** Mean reflectance of all parts but one (−1: of all), linear sRGB. */
export function meanWithout(part: BarePart, left: number): [number, number, number] {
  const sum: [number, number, number] = [0, 0, 0];
  let count = 0;
  part.sums.forEach((own, k) => {
    if (k === left) return;
    count += part.luminance[k]!.length;
    for (let c = 0; c < 3; c += 1) sum[c]! += own[c]!;
  });
  return [sum[0] / count, sum[1] / count, sum[2] / count];
}
