import { luminanceWeights } from "../colour-space.ts";
import { PARTS, partOf } from "./estimate.ts";
import type { PatchView } from "./view.ts";

const [RED, GREEN, BLUE] = luminanceWeights("srgb");

/** Pixels of bare metal in a patch, sorted into 3 × 3 parts. */
export interface BarePart {
  /** share of the patch's pixels */
  readonly share: number;
  /** luminance by part, over that of its surroundings (within 0.5 mm): mottle and streaks are no melt */
  readonly luminance: readonly Float32Array[];
  /** sums of reflectance by part, linear sRGB */
  readonly sums: readonly (readonly [number, number, number])[];
}

/** Pixels nearer than this to the coat hold some of it at their edges and say nothing of the metal. */
const BARE_BELOW = 0.35;
/** mm to each side over which the light of a pixel is compared. */
const SURROUNDINGS_MM = 0.5;
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
  const light = new Float32Array(u.length);
  const bare = new Uint8Array(u.length);
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
    bare[i] = 1;
    light[i] = RED * rgb[3 * i]! + GREEN * rgb[3 * i + 1]! + BLUE * rgb[3 * i + 2]!;
    for (let c = 0; c < 3; c += 1) sums[part]![c]! += rgb[3 * i + c]!;
  }
  const flat = flattened(light, bare, width, Math.max(1, Math.round(SURROUNDINGS_MM * view.pixelsPerMm)));
  for (let i = 0; i < u.length; i += 1) if (bare[i]) lists[partOf(i, width, height)]!.push(flat[i]!);
  if (count < LEAST_PIXELS) return null;
  return { share: count / u.length, luminance: lists.map((list) => Float32Array.from(list)), sums };
}

/** Light of bare pixels over the mean of the bare pixels in a square around each, by running sums. */
function flattened(light: Float32Array, bare: Uint8Array, width: number, reach: number): Float32Array {
  const height = light.length / width;
  const row = width + 1;
  const sum = new Float64Array(row * (height + 1));
  const many = new Float64Array(row * (height + 1));
  for (let j = 0; j < height; j += 1) {
    let [s, n] = [0, 0];
    for (let i = 0; i < width; i += 1) {
      s += light[j * width + i]!;
      n += bare[j * width + i]!;
      sum[(j + 1) * row + i + 1] = sum[j * row + i + 1]! + s;
      many[(j + 1) * row + i + 1] = many[j * row + i + 1]! + n;
    }
  }
  return light.map((value, k) => {
    if (!bare[k]) return 0;
    const [i, j] = [k % width, Math.floor(k / width)];
    const [left, right] = [Math.max(0, i - reach), Math.min(width, i + reach + 1)];
    const [top, low] = [row * Math.max(0, j - reach), row * Math.min(height, j + reach + 1)];
    const total = sum[low + right]! - sum[low + left]! - sum[top + right]! + sum[top + left]!;
    const count = many[low + right]! - many[low + left]! - many[top + right]! + many[top + left]!;
    return (value * count) / Math.max(total, 1e-9);
  });
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
