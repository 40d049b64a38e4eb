import type { PatchSpacing, PlannedPatch, Setting } from "#terms";
import { requirePositive } from "#units";
import { type CouponSize, couponCapacity, type PatchSize } from "./layout-coupon.ts";
import { gapForLimit } from "./soak-gap.ts";
import { type SoakInput, soakLimitDefault } from "./soak-input.ts";
import type { SoakPlate } from "./soak-rise.ts";
import { soakWaits } from "./soak-waits.ts";

export interface SoakedGap {
  /** m, as far apart as needed and as the coupons allow */
  readonly gap: number;
  /** m, what alone would keep the limit; null when no gap on this coupon does */
  readonly needed: number | null;
}

const STEP = 0.5e-3;

/**
 * The gap that keeps neighbours below the limit, or as much of it as fits without another coupon. All m.
 * Throws InvalidInput on a limit, loss or size that is not positive. Source: `gapForLimit`.
 */
export function soakedGap(
  soak: SoakInput,
  settings: readonly Setting[],
  patch: PatchSize,
  coupon: CouponSize,
  count: number,
  coupons: number,
): SoakedGap {
  const limit = requirePositive("gap limit", soak.limit ?? soakLimitDefault, "K");
  const burns = settings.map(soak.burn);
  const needed = gapForLimit(plateOf(soak, coupon), coupon, patch, burns, limit);
  const fits = (gap: number): boolean => {
    const along = (side: number, length: number): boolean => 2 * coupon.rim + length <= side + 1e-9;
    if (!along(coupon.width, patch.width) || !along(coupon.height, patch.height)) return false;
    const { columns, rows } = couponCapacity(patch, { ...coupon, gap });
    return columns * rows * coupons >= count;
  };
  const widest = Math.max(coupon.width, coupon.height);
  let gap = needed ?? coupon.gap + STEP * Math.floor((widest - coupon.gap) / STEP);
  while (gap > coupon.gap + 1e-9 && !fits(gap)) gap -= STEP;
  return { gap: Number(Math.max(coupon.gap, gap).toFixed(6)), needed };
}

function plateOf(soak: SoakInput, coupon: CouponSize): SoakPlate {
  const loss = requirePositive("loss", soak.loss, "W/(m²·K)");
  return { body: soak.plate, width: coupon.width, height: coupon.height, loss };
}

/** The patches with the wait before each, worked out coupon by coupon in run order, and what it comes to. */
export function soakedRun(
  soak: SoakInput,
  { gap, needed }: SoakedGap,
  patches: readonly PlannedPatch[],
  patch: PatchSize,
  coupon: CouponSize,
): { readonly patches: readonly PlannedPatch[]; readonly spacing: PatchSpacing } {
  const limit = soak.limit ?? soakLimitDefault;
  const plate = plateOf(soak, coupon);
  const waitOf = new Map<number, number>();
  let [wait, warmest, couponRise] = [0, 0, 0];
  for (const number of new Set(patches.map((p) => p.coupon))) {
    const burned = patches
      .filter((p) => p.coupon === number && p.setting !== null)
      .sort((a, b) => a.runOrder - b.runOrder);
    const turns = burned.map((p) => ({ x: p.x, y: p.y, burn: soak.burn(p.setting!) }));
    const run = soakWaits(plate, patch, turns, limit);
    for (const [k, p] of burned.entries()) waitOf.set(p.patch, run.waits[k]!);
    wait = Math.max(wait, ...run.waits);
    warmest = Math.max(warmest, run.warmest);
    couponRise = Math.max(couponRise, run.couponRise);
  }
  const spacing = { gap, gapNeeded: needed, wait, limit, warmest, couponRise };
  return {
    patches: patches.map((p) => (waitOf.has(p.patch) ? { ...p, wait: waitOf.get(p.patch)! } : p)),
    spacing: { ...spacing, words: spacingWords(spacing) },
  };
}

function spacingWords(spacing: Omit<PatchSpacing, "words">): string {
  const { gap, gapNeeded, wait, limit, warmest, couponRise } = spacing;
  const mm = (metres: number): string => `${Number((1e3 * metres).toFixed(1))} mm`;
  const rule =
    gapNeeded === null
      ? `no gap on this coupon keeps a burn from ever warming its neighbour's edge by more than ${limit} K`
      : gapNeeded <= gap
        ? `a gap of ${mm(gap)} keeps every burn from warming its neighbour's edge by more than ${limit} K`
        : `a gap of ${mm(gapNeeded)} would keep every burn from ever warming its neighbour's edge by more than ${limit} K, but takes more coupons`;
  const turns =
    wait === 0
      ? "no wait is needed between patches"
      : `wait before each patch as the run sheet says, up to ${wait} s, so that what was burned before has cooled`;
  return `Heat soak: gap ${mm(gap)}; ${rule}; ${turns}. A patch then starts at most ${Number(warmest.toFixed(1))} K warm from earlier ones, and a coupon ends ${Number(couponRise.toFixed(1))} K warmer on the mean (constant properties, coupon lying free).`;
}
