export { type CouponTruth, type PatchNoise, trueOutcome, type TrueOutcome } from "./coupon-truth.ts";
export { createWorld } from "./world.ts";
export type { BurnedPatch, TrueChance, World, WorldKind, WorldSpec } from "./world-spec.ts";
