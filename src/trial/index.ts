export type { References } from "./assign-slots.ts";
export { type PatchScore, type Region, regionOf, type SettingTools } from "./candidates.ts";
export { regionQuotas } from "./choose-settings.ts";
export { type DesignName, type GridPlan, gridSettings } from "./design-settings.ts";
export { fullFactorial } from "./factorial.ts";
export {
  type Factor,
  type FactorName,
  factorNames,
  type FactorRange,
  type FactorRanges,
  factorsAround,
  readFactor,
  settingAt,
  settingKey,
  writeFactor,
} from "./factors.ts";
export {
  couponCapacity,
  couponDefault,
  type CouponSize,
  layoutCoupon,
  patchDefault,
  type PatchSize,
  patchesAlong,
  type Slot,
} from "./layout-coupon.ts";
export { farthestPoint } from "./maximin.ts";
export { type PatchPlan, type PlanInput, planPatches } from "./plan-patches.ts";
export { latinHypercube, sobolDesign } from "./unit-designs.ts";
