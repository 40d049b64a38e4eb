import { invalid } from "#units";
import type { FoundMarker } from "../geometry/found-marker.ts";
import type { CouponPlan } from "./coupon-plan.ts";

/**
 * The coupon that most of the markers in a picture belong to; the first where none does, so that the refusal can name the
 * markers that were wanted. Errors: InvalidInput without coupons.
 */
export function chooseCoupon(plans: readonly CouponPlan[], found: readonly FoundMarker[]): CouponPlan {
  const seen = new Set(found.map(({ id }) => id));
  const shown = (plan: CouponPlan): number => plan.frame.markers.filter(({ id }) => seen.has(id)).length;
  const [first] = plans;
  if (first === undefined) return invalid("coupons", 0, "", "a trial needs at least one");
  return plans.reduce((best, plan) => (shown(plan) > shown(best) ? plan : best), first);
}
