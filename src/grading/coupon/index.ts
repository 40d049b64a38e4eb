export {
  type CouponPatch,
  type CouponPlan,
  type CouponPlanOptions,
  couponPlan,
  couponPlans,
  couponsWithFrames,
} from "./coupon-plan.ts";
export { type CouponGrading, gradeCoupon } from "./grade-coupon.ts";
export { couponInPhoto, lookAtPhoto, type PhotoLook, type PhotoSummary, summaryOf } from "./look-at-photo.ts";
export { rectifiedCoupon } from "./rectified.ts";
export { type GradedCoupon, type GradedPatch, gradeTrialCoupon, type PatchRuling, withRulings } from "./graded.ts";
