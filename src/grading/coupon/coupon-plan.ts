import type { PatchRole, Trial } from "#terms";
import { invalid } from "#units";
import type { FrameLayout } from "../frame.ts";
import { frameFor, type FrameOptions, scaled } from "../frame-plan.ts";
import type { PatchPlace } from "../reading/light-samples.ts";

/** A patch as its photograph is read. */
export interface CouponPatch extends PatchPlace {
  readonly role: PatchRole;
  /** m between lines as burned; null for references */
  readonly lineSpacing: number | null;
}

/** One coupon of a trial with the frame that it lies in when it is photographed. */
export interface CouponPlan {
  readonly coupon: number;
  readonly label: string;
  readonly frame: FrameLayout;
  readonly patches: readonly CouponPatch[];
}

export interface CouponPlanOptions extends Pick<FrameOptions, "measuredGreys"> {
  /** measured over nominal length of the ruler on the frame sheet; 1 where nothing is said */
  readonly printScale?: number;
}

/** Coupons of one trial that have a frame of their own. */
export const couponsWithFrames = 31;

/**
 * The coupon of a trial as it is photographed. Errors: InvalidInput for a coupon that the trial does not have or that has
 * no frame of its own (32 and above), a print scale outside 0.9 to 1.1, and greys that are no seven steps.
 */
export function couponPlan(trial: Trial, coupon: number, options: CouponPlanOptions = {}): CouponPlan {
  const found =
    trial.coupons.find((c) => c.coupon === coupon) ??
    invalid("coupon", coupon, "", `one of: ${trial.coupons.map((c) => c.coupon).join(", ")}`);
  if (coupon > couponsWithFrames)
    invalid("coupon", coupon, "", `only the first ${couponsWithFrames} of a trial have a frame`);
  const { measuredGreys, printScale } = options;
  const frame = frameFor(found, { coupon, ...(measuredGreys === undefined ? {} : { measuredGreys }) });
  return {
    coupon,
    label: found.label,
    frame: printScale === undefined ? frame : scaled(frame, printScale),
    patches: trial.patches
      .filter((p) => p.coupon === coupon)
      .map(({ patch, x, y, width, height, role, setting }) => ({
        patch,
        x,
        y,
        width,
        height,
        role,
        lineSpacing: setting?.lineSpacing ?? null,
      })),
  };
}

/** Every coupon of a trial that has a frame. Errors: as `couponPlan`. */
export function couponPlans(trial: Trial, options: CouponPlanOptions = {}): CouponPlan[] {
  return trial.coupons
    .filter(({ coupon }) => coupon <= couponsWithFrames)
    .map(({ coupon }) => couponPlan(trial, coupon, options));
}
