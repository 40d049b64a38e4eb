export {
  type CouponPatch,
  type CouponPlan,
  type CouponPlanOptions,
  couponPlan,
  couponPlans,
  couponsWithFrames,
} from "./coupon-plan.ts";
export { type CouponGrading, gradeCoupon } from "./grade-coupon.ts";
export { lookAtPhoto, type PhotoLook } from "./look-at-photo.ts";
export { rectifiedCoupon } from "./rectified.ts";
