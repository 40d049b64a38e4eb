export { allParticles, calibrate, calibrateFurther, type CalibrateInput, type Posterior } from "./calibrate.ts";
export {
  metalReading,
  type MetalReading,
  type PatchEvidence,
  residueReading,
  type ResidueReading,
} from "./evidence.ts";
export { effectPriors, type Layout } from "./likelihood.ts";
export type { Island } from "./particles.ts";
export { quickNormal } from "./quick-normal.ts";
export { damageShapes, referenceOf, removalShapes, shapeRow, shiftNames, shiftShapes } from "./shapes.ts";
