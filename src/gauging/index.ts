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
