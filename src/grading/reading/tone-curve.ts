import { requireInRange } from "#units";
import { decodeCode, encodeLinear } from "../colour-space.ts";

/**
 * How a camera bent the light before it wrote codes: stray light in the lens added, a power on the light, an S of one
 * strength and shape on the code. Only the inverse is ever needed.
 */
export interface ToneCurve {
  /** 1; 0 none, 1 as steep as keeps the ends level, below 0 flattened */
  readonly strength: number;
  /** 1; where the S bends: 0 a cubic, whose ends bend most, 0.26 a logistic curve, 0.41 a sine, whose middle bends most */
  readonly shape: number;
  /** 1, power on linear light */
  readonly power: number;
  /** share of full scale that stray light adds everywhere */
  readonly veil: number;
}

/** An S alone. */
export type Bend = Pick<ToneCurve, "strength" | "shape">;

/** Least light that is told from none. */
export const LEAST = 1e-5;

export const STRENGTH_LOW = -0.8;
export const STRENGTH_HIGH = 0.98;
export const SHAPE_HIGH = 0.8;
const NODES = 2048;
/** t·(1 − t) at t = ¼, where all shapes of one strength meet */
const QUARTER = 0.1875;

/** S on a code t from 0 to 1: t − k·(1 − 2t)·q·(1 − m + m·q/0.1875), q = t·(1 − t); rises everywhere in the ranges held. */
function bend(t: number, { strength, shape }: Bend): number {
  const q = t * (1 - t);
  return t - strength * (1 - 2 * t) * q * (1 - shape + (shape * q) / QUARTER);
}

/** dS/dt */
function slope(t: number, { strength, shape }: Bend): number {
  const q = t * (1 - t);
  return 1 - strength * ((1 - 6 * q) * (1 - shape + (shape * q) / QUARTER) + ((1 - 4 * q) * q * shape) / QUARTER);
}

/** Code before the S, both 0 to 1: safeguarded Newton steps; the S is monotone, so there is one answer. */
export function unbend(code: number, by: Bend): number {
  let low = 0;
  let high = 1;
  let t = code;
  for (let i = 0; i < 40; i += 1) {
    const off = bend(t, by) - code;
    if (Math.abs(off) < 1e-10) break;
    if (off > 0) high = t;
    else low = t;
    const next = t - off / slope(t, by);
    t = next > low && next < high ? next : (low + high) / 2;
  }
  return t;
}

/**
 * Light before the camera's tone, of linear light as written. Equation: (decode(S⁻¹(encode(v))) − veil)^power.
 * linear 1 (0 to 1, clipped there); result 1. Throws InvalidInput for a strength outside −0.8 to 0.98, a shape outside 0
 * to 0.8, a power outside 0.3 to 3 or a veil outside 0 to 0.2. Source: own form; IEC 61966-2-1 for the code.
 */
export function undoTone(linear: number, curve: ToneCurve): number {
  const strength = requireInRange("tone strength", curve.strength, "", STRENGTH_LOW, STRENGTH_HIGH);
  const shape = requireInRange("tone shape", curve.shape, "", 0, SHAPE_HIGH);
  const power = requireInRange("tone power", curve.power, "", 0.3, 3);
  const veil = requireInRange("veil", curve.veil, "", 0, 0.2);
  const light = decodeCode(unbend(encodeLinear(Math.min(1, Math.max(0, linear))), { strength, shape }));
  return Math.max(LEAST, light - veil) ** power;
}

/**
 * `undoTone` for many numbers, by a table over √v with straight lines between 2,049 nodes (relative error below 1e-4
 * above v = 0.001). Errors as `undoTone`.
 */
export function toneUndoer(curve: ToneCurve): (linear: number) => number {
  const table = Float64Array.from({ length: NODES + 2 }, (_, i) => undoTone(Math.min(1, (i / NODES) ** 2), curve));
  return (linear) => {
    const place = NODES * Math.sqrt(linear < 0 ? 0 : linear > 1 ? 1 : linear);
    const below = place | 0;
    const low = table[below]!;
    return low + (place - below) * (table[below + 1]! - low);
  };
}
