import type { Setting } from "#terms";
import { type Factor, placeSetting, settingPoint } from "./factors.ts";
import { squaredDistance } from "./maximin.ts";
import { sobolDesign } from "./unit-designs.ts";

export interface PulledPoint {
  readonly setting: Setting;
  /** share of the way from the aim that is left, 1 where the point could be run as it was */
  readonly share: number;
}

const STEPS = 50;
const LOOKS = 256;

/**
 * A place well inside what the set-up can run, to pull points towards: the middle of the ranges, else the mean of the
 * places of a Sobol set that run, else the one of these nearest to that mean, else the centre. Places 0 to 1.
 * Throws what `runs` throws. Source: own.
 */
export function inwardAim(
  centre: Setting,
  factors: readonly Factor[],
  runs: (setting: Setting) => boolean,
  seed: number,
): readonly number[] {
  const can = (t: readonly number[]): boolean => runs(placeSetting(centre, factors, t));
  const middle = factors.map(() => 0.5);
  if (can(middle)) return middle;
  const inside = sobolDesign(LOOKS, factors.length, seed).filter(can);
  if (inside.length === 0) return settingPoint(factors, centre);
  const mean = factors.map((_, k) => inside.reduce((sum, t) => sum + t[k]!, 0) / inside.length);
  if (can(mean)) return mean;
  return inside.reduce((a, b) => (squaredDistance(b, mean) < squaredDistance(a, mean) ? b : a));
}

/**
 * The point of a design as the set-up can run it: where it cannot, moved towards a point inside along the straight
 * line in the logarithms of the factors, a + s·(t − a), by the first s of 1, 0.98, 0.96 … that runs; null when none
 * does. `aim` a, `t`: places 0 to 1 of the factors; `runs`: whether the set-up can run a setting. Throws what `runs` throws.
 * Source: own.
 */
export function pullIn(
  centre: Setting,
  factors: readonly Factor[],
  aim: readonly number[],
  t: readonly number[],
  runs: (setting: Setting) => boolean,
): PulledPoint | null {
  for (let step = STEPS; step >= 0; step--) {
    const share = step / STEPS;
    const setting = placeSetting(
      centre,
      factors,
      aim.map((a, k) => a + share * (t[k]! - a)),
    );
    if (runs(setting)) return { setting, share };
  }
  return null;
}
