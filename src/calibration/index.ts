export { allParticles, calibrate, calibrateFurther, type CalibrateInput, type Posterior } from "./calibrate.ts";
export {
  metalReading,
  type MetalReading,
  type PatchEvidence,
  residueReading,
  type ResidueReading,
} from "./evidence.ts";
export { posteriorChecks, type PosteriorChecks } from "./diagnose.ts";
export { effectPriors, type Layout } from "./likelihood.ts";
export type { Island } from "./island.ts";
export {
  type LeftOutPatch,
  type PredictedCount,
  predictiveChecks,
  type PredictiveChecks,
  type SurprisingPatch,
} from "./predictive-checks.ts";
export { quickNormal } from "./quick-normal.ts";
export {
  damageShapes,
  referenceOf,
  removalShapes,
  shapeRow,
  shiftNames,
  type ShiftShape,
  shiftShapes,
} from "./shapes.ts";
