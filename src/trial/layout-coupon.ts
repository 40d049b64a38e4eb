import type { Coupon } from "#terms";
import { invalid, requireInteger, requireNonNegative, requirePositive } from "#units";

export interface PatchSize {
  /** m */
  readonly width: number;
  readonly height: number;
}

export interface CouponSize {
  /** m */
  readonly width: number;
  readonly height: number;
  /** m kept free along every side of the coupon */
  readonly rim: number;
  /** m between neighbouring patches */
  readonly gap: number;
}

/** Place of one patch: lower left corner from the coupon's lower left corner, m. */
export interface Slot {
  readonly coupon: number;
  readonly x: number;
  readonly y: number;
}

/** Patch 15 × 15 mm, coupon 150 × 100 mm with 10 mm rim, 5 mm gap (common practice, no source). */
export const patchDefault: PatchSize = { width: 15e-3, height: 15e-3 };
export const couponDefault: CouponSize = { width: 150e-3, height: 100e-3, rim: 10e-3, gap: 5e-3 };

/** The shares of 1 nm that sums of decimal lengths may miss the last patch by. */
const slack = 1e-9;

/**
 * How many patches fit along a side: floor((length − 2·rim + gap)/(patch + gap)), 0 when none. All m.
 * Throws InvalidInput on sizes that are not positive. Source: geometry.
 */
export function patchesAlong(length: number, patch: number, rim: number, gap: number): number {
  requirePositive("coupon side", length, "m");
  requirePositive("patch side", patch, "m");
  requireNonNegative("rim", rim, "m");
  requireNonNegative("gap", gap, "m");
  return Math.max(0, Math.floor((length - 2 * rim + gap + slack) / (patch + gap)));
}

/** Patches that one coupon holds. Throws InvalidInput, naming the side, when not even one fits. */
export function couponCapacity(
  patch: PatchSize,
  coupon: CouponSize,
): { readonly columns: number; readonly rows: number } {
  const columns = patchesAlong(coupon.width, patch.width, coupon.rim, coupon.gap);
  const rows = patchesAlong(coupon.height, patch.height, coupon.rim, coupon.gap);
  if (columns === 0) refuse("width", patch.width, coupon.width, coupon.rim);
  if (rows === 0) refuse("height", patch.height, coupon.height, coupon.rim);
  return { columns, rows };
}

function refuse(side: string, patch: number, coupon: number, rim: number): never {
  const mm = (metres: number): number => Number((1e3 * metres).toPrecision(6));
  const room = mm(Math.max(0, coupon - 2 * rim));
  return invalid(
    `patch ${side}`,
    mm(patch),
    "mm",
    `at most ${room} mm on a coupon of ${mm(coupon)} mm with a rim of ${mm(rim)} mm`,
  );
}

/**
 * Places `count` patches on as few coupons as hold them, shared evenly, row by row from the upper left, the block
 * centred on the coupon. All lengths m. Coupons are numbered from 1 and labelled "1 of 2".
 * Throws InvalidInput when a patch does not fit or more than 99 coupons would be needed. Source: geometry.
 */
export function layoutCoupon(input: {
  readonly patch: PatchSize;
  readonly coupon: CouponSize;
  readonly count: number;
}): { readonly coupons: readonly Coupon[]; readonly slots: readonly Slot[] } {
  const { patch, coupon } = input;
  requireInteger("count", input.count, 1, 10_000);
  const { columns, rows } = couponCapacity(patch, coupon);
  const perCoupon = columns * rows;
  const needed = Math.ceil(input.count / perCoupon);
  if (needed > 99) invalid("count", input.count, "patches", `at most ${99 * perCoupon} on 99 coupons of this size`);
  const left = (coupon.width - columns * patch.width - (columns - 1) * coupon.gap) / 2;
  const bottom = (coupon.height - rows * patch.height - (rows - 1) * coupon.gap) / 2;
  const slots: Slot[] = [];
  for (let c = 0; c < needed; c++) {
    // Coupons share the patches evenly, so that each is a block of its own with room for its references.
    const share = Math.floor(input.count / needed) + (c < input.count % needed ? 1 : 0);
    for (let place = 0; place < share; place++) {
      const row = rows - 1 - Math.floor(place / columns);
      slots.push({
        coupon: c + 1,
        x: left + (place % columns) * (patch.width + coupon.gap),
        y: bottom + row * (patch.height + coupon.gap),
      });
    }
  }
  const coupons = Array.from({ length: needed }, (_, i) => ({
    coupon: i + 1,
    width: coupon.width,
    height: coupon.height,
    label: needed === 1 ? "1" : `${i + 1} of ${needed}`,
  }));
  return { coupons, slots };
}
