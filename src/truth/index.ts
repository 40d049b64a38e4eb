export { type CouponTruth, type PatchNoise, trueOutcome, type TrueOutcome } from "./coupon-truth.ts";
export { createWorld, type DriftCase, type World, type WorldKind, type WorldSpec } from "./world.ts";
