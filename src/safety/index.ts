export { captureAirflow, curtainNote } from "./capture.ts";
export { type CautionsFor, cautionsFor } from "./cautions.ts";
export {
  correction5,
  type Exposure,
  type ExposureLimit,
  type ExposureRule,
  exposureLimit,
  type GoverningLimit,
  type LimitCandidate,
} from "./exposure-limit.ts";
export {
  type EyewearAdvice,
  type EyewearBeam,
  type EyewearMode,
  eyewear,
  opticalDensity,
  pulsedLevel,
  repeatedExposure,
  steadyLevel,
  wideBeamFactor,
} from "./eyewear.ts";
export { type FumeFlag, fumeFlags, type HazardKnowledge } from "./fume-flags.ts";
export {
  directFan,
  exposureOf,
  type HazardDistance,
  type HazardDistances,
  type HazardOptions,
  type HazardPath,
  hazardDistances,
} from "./hazard-distances.ts";
export {
  collimatedDistance,
  diameter63,
  diffuseDistance,
  fibreDistance,
  fibreShare,
  halfSpaceDistance,
  lensDistance,
  roundUpDistance,
} from "./hazard-forms.ts";
export { classOneLimit, laserClass } from "./laser-class.ts";
export { eyeLimitDirective, eyeLimitIec, skinLimit } from "./limit-tables.ts";
export { correctionA, correctionC, eyeAperture, skinAperture } from "./near-infrared.ts";
