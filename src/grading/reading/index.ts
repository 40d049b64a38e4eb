export { calibrateLight } from "./calibrate-light.ts";
export type { LightCalibration } from "./light-calibration.ts";
export { type Reference, referenceDifference, referenceOf, referenceOfColour } from "./reference.ts";
export { detectionLimit, type Residue, residueOf } from "./residue.ts";
export { type ToneCurve, toneUndoer, undoTone } from "./tone-curve.ts";
export { bareScatter, unmix } from "./unmix.ts";
export {
  type GreySample,
  innerView,
  type LayerSample,
  type LightSample,
  type LightSamples,
  type PatchView,
} from "./view.ts";
export { type BarePart, barePart } from "./bare-part.ts";
export { edgeRaggedness } from "./edge-raggedness.ts";
export type { Measured } from "./estimate.ts";
export { type Melt, meltOf } from "./melt.ts";
export { type Streaks, streaksOf } from "./streaks.ts";
export { type Tint, tintOf } from "./tint.ts";
export { chooseShot, meanLuminance, type PatchShot, type ShotChoice } from "./choose-shot.ts";
export type { PatchReading } from "./patch-reading.ts";
export { type CouponReferences, meltIndexOf, readPatch } from "./read-patch.ts";
export {
  clippedGate,
  differenceGate,
  gleamFlag,
  lightGates,
  readingLimits,
  shadowGate,
  spreadFlag,
} from "./reading-gates.ts";
export { cleanPoints, gaugePoints, residueFromPoints } from "./gauge-points.ts";
export type { OtherWay } from "./other-ways.ts";
export { type PhotoPath, photoPath } from "./photo-path.ts";
export {
  acceptReading,
  leastWrongShare,
  type JudgedReading,
  overruleReading,
  type Ruling,
  type SeenGroup,
  type SeenReading,
  type WrongReadings,
  wrongReadings,
} from "./overrule.ts";
export { type PatchVerdict, patchVerdict } from "./patch-verdict.ts";
export { outcomeFromReading, type ReadOutcome } from "./reading-outcome.ts";
export { readingWords } from "./reading-words.ts";
export { meltRise, type SuggestedCondition, suggestCondition } from "./suggest-condition.ts";
export { clippedShareOf, greySampleOf, layerSamplesOf, type PatchPlace } from "./light-samples.ts";
export { couponReferences, type ReferenceShots } from "./coupon-references.ts";
