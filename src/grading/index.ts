/**
 * Grading in words and numbers: colour difference and the scales that inspectors use. Reading photographs comes with a
 * later issue; nothing here stands in for it.
 */
export { colourDifference, type Lab } from "./colour-difference.ts";
export { DISCOLOURED_FROM, isDiscoloured } from "./discoloured.ts";
export { labFromSrgb, linearFromSrgb } from "./lab-from-srgb.ts";
export { protectionRating, rustGradeD610 } from "./rust-grade.ts";
