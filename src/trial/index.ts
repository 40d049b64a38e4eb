export type { References } from "./assign-slots.ts";
export { boxBehnken } from "./box-behnken.ts";
export { type PatchScore, type Region, regionOf, type SettingTools } from "./candidates.ts";
export { type AxialKind, centralComposite, rotatableDistance } from "./central-composite.ts";
export { regionQuotas } from "./choose-settings.ts";
export { type DOptimalDesign, type DOptimalInput, dOptimal, type ModelAtHand } from "./d-optimal.ts";
export { type DesignName, designNames, type GridPlan, gridSettings } from "./design-settings.ts";
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
export { definingRelation, type Fraction, fractionalFactorial, mostHalvings } from "./fractional-factorial.ts";
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
export type { InformationRow, PlanInput } from "./plan-input.ts";
export { type PatchPlan, planPatches } from "./plan-patches.ts";
export { plackettBurman, type PlackettBurmanRuns, plackettBurmanRuns } from "./plackett-burman.ts";
export {
  dEfficiency,
  largestCorrelation,
  logInformation,
  regressorCount,
  type RegressorModel,
  regressorRow,
} from "./regressors.ts";
export { orderApart } from "./run-order.ts";
export { type SharedItem, shareOverCoupons } from "./share-coupons.ts";
export { gapForLimit, neighbourPeak } from "./soak-gap.ts";
export { type BurnHeat, type SoakInput, soakLimitDefault } from "./soak-input.ts";
export { type BurnedPatch, rodShare, type SoakPlate, soakRise } from "./soak-rise.ts";
export { soakWaits } from "./soak-waits.ts";
export { probitWeight } from "./choose-d-optimal.ts";
export { twoLevelFactorial } from "./two-level.ts";
export { closestPair, latinHypercube, sobolDesign } from "./unit-designs.ts";
export { addBatch, isLaterStage } from "./add-batch.ts";
export {
  isTick,
  mergeEntries,
  type PatchRun,
  patchesToRun,
  patchRun,
  type RunProgress,
  runProgress,
  standingEntries,
} from "./run-log.ts";
