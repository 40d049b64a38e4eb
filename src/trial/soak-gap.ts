import { minimise1d } from "#numerics";
import type { CouponSize, PatchSize } from "./layout-coupon.ts";
import type { BurnHeat } from "./soak-input.ts";
import { type SoakPlate, soakRise } from "./soak-rise.ts";

/** Gaps are told in half millimetres. */
const STEP = 0.5e-3;

/**
 * Highest rise that burning one patch ever brings to the nearest edge of its neighbour, K: beside each other or one
 * above the other, in a corner of the coupon, where heat has least room. gap: m. Throws InvalidInput on sizes that are
 * not positive. Source: `soakRise`, highest over time.
 */
export function neighbourPeak(
  plate: SoakPlate,
  coupon: CouponSize,
  patch: PatchSize,
  burn: BurnHeat,
  gap: number,
): number {
  const source = { x: coupon.rim, y: coupon.rim, ...patch, start: 0, duration: burn.duration, energy: burn.energy };
  const ways = [];
  if (fitsTwo(coupon.width, patch.width, coupon.rim, gap))
    ways.push({ x: [coupon.rim + patch.width + gap], y: [coupon.rim, coupon.rim + 0.5 * patch.height] });
  if (fitsTwo(coupon.height, patch.height, coupon.rim, gap))
    ways.push({ x: [coupon.rim, coupon.rim + 0.5 * patch.width], y: [coupon.rim + patch.height + gap] });
  return Math.max(0, ...ways.map((places) => peakOver((time) => soakRise(plate, source, places, time), plate, burn)));
}

const fitsTwo = (side: number, patch: number, rim: number, gap: number): boolean =>
  2 * rim + 2 * patch + gap <= side + 1e-9;

/** Highest value over times from half the burn until the coupon is even. */
function peakOver(rise: (time: number) => number, plate: SoakPlate, burn: BurnHeat): number {
  const { body, width, height } = plate;
  const even = (body.volumetricHeat * Math.max(width, height) ** 2) / body.conductivity;
  const low = Math.log(0.5 * burn.duration);
  const high = Math.log(burn.duration + 0.5 * even);
  const steps = 24;
  const at = (k: number): number => low + (k / steps) * (high - low);
  let best = 0;
  let highest = -1;
  for (let k = 0; k <= steps; k++) {
    const value = rise(Math.exp(at(k)));
    if (value > highest) [best, highest] = [k, value];
  }
  const found = minimise1d((t) => -rise(Math.exp(t)), at(Math.max(0, best - 1)), at(Math.min(steps, best + 1)), {
    tolerance: 1e-3,
  });
  return Math.max(highest, -found.value);
}

/**
 * Smallest gap between patches, m in steps of half a millimetre and no less than the coupon's own, at which no burn
 * brings the nearest edge of a neighbour above `limit`; null when no gap does that leaves room for two patches.
 * limit: K. Throws InvalidInput on sizes that are not positive. Source: `neighbourPeak`.
 */
export function gapForLimit(
  plate: SoakPlate,
  coupon: CouponSize,
  patch: PatchSize,
  burns: readonly BurnHeat[],
  limit: number,
): number | null {
  const widest = Math.max(coupon.width - 2 * patch.width, coupon.height - 2 * patch.height) - 2 * coupon.rim;
  const last = Math.floor((widest - coupon.gap) / STEP + 1e-6);
  const gapAt = (step: number): number => coupon.gap + step * STEP;
  const peak = (burn: BurnHeat, step: number): number => neighbourPeak(plate, coupon, patch, burn, gapAt(step));
  let step = 0;
  // The burn that is worst at one gap need not be worst at another: each in turn pushes the gap out as far as it needs.
  for (const burn of burns) {
    if (peak(burn, step) <= limit) continue;
    if (last <= step || peak(burn, last) > limit) return null;
    let [low, high] = [step, last];
    while (high - low > 1) {
      const half = Math.floor((low + high) / 2);
      if (peak(burn, half) <= limit) high = half;
      else low = half;
    }
    step = high;
  }
  return Number(gapAt(step).toFixed(6));
}
