import { luminanceWeights } from "../colour-space.ts";
import type { Grid } from "./streak-spectrum.ts";
import type { PatchView } from "./view.ts";

/** Luminance over its mean. */
export function luminance({ rgb }: PatchView): Float32Array {
  const [r, g, b] = luminanceWeights("srgb");
  const values = new Float32Array(rgb.length / 3);
  for (let i = 0; i < values.length; i += 1) values[i] = r * rgb[3 * i]! + g * rgb[3 * i + 1]! + b * rgb[3 * i + 2]!;
  const mean = Math.max(1e-6, values.reduce((sum, v) => sum + v, 0) / values.length);
  return values.map((v) => v / mean);
}

/** Place between bare and coat below which a pixel counts as metal. */
const BARE_BELOW = 0.3;

/** A face that streaks are looked for in, and the share of it that can show them. */
export interface StreakFace {
  readonly values: Float32Array;
  readonly share: number;
}

/** The same with pixels that hold coat set to the mean of the others; as it is where hardly any is bare. */
export function filled(face: Float32Array, u: Float32Array): StreakFace {
  let [sum, count] = [0, 0];
  for (let i = 0; i < face.length; i += 1) {
    if (u[i]! >= BARE_BELOW) continue;
    sum += face[i]!;
    count += 1;
  }
  if (count < face.length / 4) return { values: face, share: 1 };
  const mean = sum / count;
  return { values: face.map((v, i) => (u[i]! < BARE_BELOW ? v / mean : 1)), share: count / face.length };
}

/** The face as a grid with the lines along its rows, or turned so that lines along its columns are. */
export function gridOf(face: Float32Array, { width, height }: PatchView, turned: boolean): Grid {
  if (!turned) return { values: face, width, height };
  const values = new Float32Array(face.length);
  for (let i = 0; i < face.length; i += 1) values[(i % width) * height + Math.floor(i / width)] = face[i]!;
  return { values, width: height, height: width };
}
