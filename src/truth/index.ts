export { type CouponTruth, type PatchNoise, trueOutcome, type TrueOutcome } from "./coupon-truth.ts";
