export { type BeamCheck, type BurnSite, checkBeam, type SpotGroup } from "./beam-check.ts";
export {
  type BurnMark,
  fitSpot,
  type SpotFit,
  usualEnergyNoise,
} from "./burn-marks.ts";
export { type EllipticalFit, type EllipticalMark, fitEllipticalSpot } from "./elliptical.ts";
export type { Estimate } from "./estimate.ts";
export { type FocusFit, fitFocus, type SpotReading } from "./focus-series.ts";
export { fitIncubation, incubatedThreshold, type IncubationFit, type ThresholdReading } from "./incubation.ts";
export { cohenKappa, type Kappa, type KappaWeights } from "./kappa.ts";
export { type Misfit, misfitOf } from "./misfit.ts";
export { type Agreement, agreementOf, type GradedItem, type PairAgreement, wrongShareOf } from "./agreement.ts";
export { categoriesOf, type GaugeComponents, type GaugeStudy, gaugeStudy, type VarianceRow } from "./gauge-study.ts";
export type { GaugeReadings } from "./gauge-readings.ts";
export { rangeMoments, type RangeStudy, rangeStudy } from "./range-method.ts";
