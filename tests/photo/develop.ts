import { createRandom } from "#numerics";
import type { ShotDraw } from "./draw-shot.ts";

/** Gaussian blur in place of a picture of three channels: along rows, then across them. */
export function blur(picture: Float32Array, width: number, height: number, sigma: number): void {
  if (sigma <= 0) return;
  const reach = Math.ceil(3 * sigma);
  const raw = Float64Array.from({ length: reach + 1 }, (_, k) => Math.exp(-((k / sigma) ** 2) / 2));
  const total = raw.reduce((sum, w, k) => sum + (k === 0 ? w : 2 * w), 0);
  const weights = raw.map((w) => w / total);
  const stride = 3 * width;
  const line = new Float32Array(stride + 6 * reach);
  for (let v = 0; v < height; v++) {
    const row = picture.subarray(v * stride, (v + 1) * stride);
    line.set(row, 3 * reach);
    for (let k = 0; k < 3 * reach; k++) {
      line[k] = row[k % 3]!;
      line[stride + 3 * reach + k] = row[stride - 3 + (k % 3)]!;
    }
    for (let k = 0, at = 3 * reach; k < stride; k++, at++) {
      let sum = weights[0]! * line[at]!;
      for (let j = 1; j <= reach; j++) sum += weights[j]! * (line[at - 3 * j]! + line[at + 3 * j]!);
      row[k] = sum;
    }
  }
  // Rows that are still needed as they were are kept in a ring.
  const kept = Array.from({ length: reach + 1 }, () => new Float32Array(stride));
  for (let v = 0; v < height; v++) {
    const row = picture.subarray(v * stride, (v + 1) * stride);
    const own = kept[v % kept.length]!;
    own.set(row);
    for (let k = 0; k < stride; k++) row[k] = weights[0]! * own[k]!;
    for (let j = 1; j <= reach; j++) {
      const above = Math.max(0, v - j);
      const up = kept[above % kept.length]!;
      const below = Math.min(height - 1, v + j) * stride;
      const down = below === v * stride ? own : picture.subarray(below, below + stride);
      const w = weights[j]!;
      for (let k = 0; k < stride; k++) row[k] = row[k]! + w * (up[k]! + down[k]!);
    }
  }
}

/** The phone's own curve over the code, 0 to 1: darks down and lights up, not the cubic or logistic that readers fit. */
export const toneCurve = (code: number, strength: number): number =>
  code - (strength * Math.sin(2 * Math.PI * code)) / (2 * Math.PI);

const encode = (y: number): number => (y <= 0.0031308 ? 12.92 * y : 1.055 * y ** (1 / 2.4) - 0.055);

/** Codes, 0 to 1 and beyond where sharpened, over the square root of linear light, so that darks are fine enough. */
function codeTable(tone: number): Float32Array {
  return Float32Array.from({ length: 8194 }, (_, k) => toneCurve(Math.min(1, encode((k / 8192) ** 2)), tone));
}

/**
 * What a phone makes of linear light: blur, veil, exposure and white balance, noise, code, tone, sharpening, eight bits.
 * `exposure`: factor that brings linear light to share of full scale.
 */
export function develop(
  linear: Float32Array,
  width: number,
  height: number,
  shot: ShotDraw,
  exposure: number,
  seed: number,
): Uint8Array {
  blur(linear, width, height, shot.blur);
  const random = createRandom(seed).substream(77);
  const normals = Float32Array.from({ length: 1 << 16 }, () => random.normal());
  const table = codeTable(shot.tone);
  const gains = [exposure * (1 + shot.warmth), exposure, exposure * (1 - shot.warmth)];
  for (let k = 0; k < linear.length; ) {
    for (let c = 0; c < 3; c++, k++) {
      let value = gains[c]! * linear[k]! + shot.veil;
      if (shot.noise > 0) {
        const bits = random.uint32();
        value += shot.noise * Math.sqrt(2e-6 + 8e-5 * Math.max(0, value)) * normals[bits & 0xffff]!;
      }
      const at = 8192 * Math.sqrt(value <= 0 ? 0 : value >= 1 ? 1 : value);
      const low = at | 0;
      linear[k] = table[low]! + (at - low) * (table[low + 1]! - table[low]!);
    }
  }
  const rgb = new Uint8Array(linear.length);
  const soft = shot.sharpening > 0 ? linear.slice() : linear;
  if (shot.sharpening > 0) blur(soft, width, height, 1);
  for (let k = 0; k < rgb.length; k++) {
    const code = 255 * (linear[k]! + shot.sharpening * (linear[k]! - soft[k]!)) + 0.5;
    rgb[k] = code <= 0 ? 0 : code >= 255 ? 255 : code;
  }
  return rgb;
}
