import { invalid } from "#units";
import type { PatchSize } from "./layout-coupon.ts";
import type { BurnHeat } from "./soak-input.ts";
import { type BurnedPatch, meanSoakRise, type SoakPlate, soakRises } from "./soak-rise.ts";

/** A patch in its turn on one coupon. m. */
export interface Turn {
  readonly x: number;
  readonly y: number;
  readonly burn: BurnHeat;
}

export interface SoakedRun {
  /** s between the end of the burn before and the start of each, whole seconds; 0 for the first */
  readonly waits: readonly number[];
  /** K, highest that a patch is warmed by earlier ones when it starts or while it burns */
  readonly warmest: number;
  /** K, mean of the coupon when its last burn ends */
  readonly couponRise: number;
}

const LONGEST = 86_400;

/**
 * Waits that keep the rise left by earlier patches at or below `limit` anywhere on the next one, from its start to the
 * end of its burn: its corners, the middles of its edges and its centre at three times. limit: K above 0.
 * Result s and K. Throws InvalidInput when a day of waiting does not do. Source: `soakRise` summed over the burns.
 */
export function soakWaits(plate: SoakPlate, patch: PatchSize, turns: readonly Turn[], limit: number): SoakedRun {
  const burned: BurnedPatch[] = [];
  const waits: number[] = [];
  let warmest = 0;
  let free = 0;
  for (const turn of turns) {
    const warmth = (wait: number): number => riseWhile(plate, patch, burned, turn, free + wait);
    const wait = burned.length === 0 ? 0 : shortestWait(warmth, limit);
    waits.push(wait);
    if (burned.length > 0) warmest = Math.max(warmest, warmth(wait));
    const start = free + wait;
    burned.push({ x: turn.x, y: turn.y, ...patch, start, ...turn.burn });
    free = start + turn.burn.duration;
  }
  const couponRise = burned.reduce((sum, patch_) => sum + meanSoakRise(plate, patch_, free), 0);
  return { waits, warmest, couponRise };
}

function riseWhile(
  plate: SoakPlate,
  patch: PatchSize,
  burned: readonly BurnedPatch[],
  turn: Turn,
  start: number,
): number {
  const places = {
    x: [turn.x, turn.x + 0.5 * patch.width, turn.x + patch.width],
    y: [turn.y, turn.y + 0.5 * patch.height, turn.y + patch.height],
  };
  let highest = 0;
  for (const share of [0, 0.5, 1]) {
    const time = start + share * turn.burn.duration;
    const total = new Float64Array(9);
    for (const source of burned) {
      const rises = soakRises(plate, source, places, time);
      for (let i = 0; i < total.length; i++) total[i]! += rises[i]!;
    }
    highest = Math.max(highest, ...total);
  }
  return highest;
}

/** Doubles the wait until it does, then halves the bracket to the second. */
function shortestWait(warmth: (wait: number) => number, limit: number): number {
  if (warmth(0) <= limit) return 0;
  let low = 0;
  let high = 1;
  while (warmth(high) > limit) {
    low = high;
    high *= 2;
    if (high > LONGEST) invalid("gap limit", limit, "K", "so much that less than a day of waiting keeps it");
  }
  while (high - low > 1) {
    const half = Math.ceil((low + high) / 2);
    if (half === high) break;
    if (warmth(half) <= limit) high = half;
    else low = half;
  }
  return high;
}
