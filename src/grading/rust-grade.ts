import { requireInRange } from "#units";

/** Largest rusted share of area, %, of grades 10 down to 1; above the last the grade is 0. */
const BOUNDARIES = [0.01, 0.03, 0.1, 0.3, 1, 3, 10, 16, 33, 50] as const;

/**
 * Rust grade 10 (at most 0.01 % of the area) to 0 (more than 50 %). share 0 to 1; throws InvalidInput outside.
 * Source: ASTM D610.
 */
export function rustGradeD610(share: number): number {
  const percent = 100 * requireInRange("rusted share", share, "", 0, 1);
  const index = BOUNDARIES.findIndex((limit) => percent <= limit * (1 + 1e-12));
  return index < 0 ? 0 : 10 - index;
}

/**
 * Protection rating R_p = 3·(2 − log10 A), A the defective area in %, rounded to the nearest whole number and held
 * between 0 and 10. share 0 to 1; throws InvalidInput outside. Source: ISO 10289.
 */
export function protectionRating(share: number): number {
  const percent = 100 * requireInRange("defective share", share, "", 0, 1);
  if (percent === 0) return 10;
  return Math.min(10, Math.max(0, Math.round(3 * (2 - Math.log10(percent)))));
}
