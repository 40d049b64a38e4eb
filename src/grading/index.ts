/**
 * Grading in words and numbers: colour, the scales that inspectors use, and what photographs of coupons say of each patch.
 */
export { colourDifference, type Lab } from "./colour-difference.ts";
export {
  type ColourSpace,
  decodeCode,
  encodeLinear,
  labFromLinear,
  labFromXyz,
  lightnessOfLuminance,
  linearFromXyz,
  linearOfBytes,
  luminanceOfLightness,
  luminanceWeights,
  type Xyz,
  xyzFromLab,
  xyzFromLinear,
} from "./colour-space.ts";
export { DISCOLOURED_FROM, isDiscoloured } from "./discoloured.ts";
export { labFromSrgb, linearFromSrgb } from "./lab-from-srgb.ts";
export { protectionRating, rustGradeD610 } from "./rust-grade.ts";
export * from "./reading/index.ts";
export * from "./geometry/index.ts";
export * from "./coupon/index.ts";
export type { Gate } from "./gate.ts";
export type { FrameLayout, FrameMarker, GreyStep, Photo } from "./frame.ts";
export {
  frameExtent,
  frameFor,
  frameIds,
  type FrameOptions,
  framePlaces,
  markerPlace,
  markersPerFrame,
  scaled,
  sheetFoot,
  sheetHead,
} from "./frame-plan.ts";
export { greyCode } from "./grey-steps.ts";
export { markerCells, markerDictionary } from "./marker-bits.ts";
export { findPaper, type Paper, paperMargin, type PaperName, requirePaper } from "./paper-size.ts";
