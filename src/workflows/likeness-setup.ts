import type { LaserSetup, Metal } from "#terms";
import { nearness } from "./likeness-coat.ts";

/** Own choices: a metal of the family, any other metal, another kind of source. */
const SAME_FAMILY = 0.7;
const OTHER_METAL = 0.2;
const OTHER_KIND = 0.3;
/** ln ratios at which two figures are one standard deviation apart. */
const WAVELENGTH_SCALE = 0.2;
const SPOT_SCALE = Math.LN2;
const POWER_SCALE = Math.LN2;

/**
 * Likeness of two metals: 1 for the same id, 0.7 within the family, 0.2 else. Result 1. Errors: none. Source: own.
 */
export function metalLikeness(a: Metal, b: Metal): number {
  if (a.id === b.id) return 1;
  return a.family === b.family ? SAME_FAMILY : OTHER_METAL;
}

/** Share that two ranges of positive figures have in common of what either covers, both in ln; 1 for equal points. */
function overlap(a: readonly number[], b: readonly number[]): number {
  const low = [Math.min(...a), Math.min(...b)];
  const high = [Math.max(...a), Math.max(...b)];
  const common = Math.log(Math.min(...high) / Math.max(...low));
  const whole = Math.log(Math.max(...high) / Math.min(...low));
  return whole === 0 ? 1 : Math.max(0, common) / whole;
}

/** Nearness of the two lenses of the set-ups whose spots are nearest. */
function spotNearness(a: LaserSetup, b: LaserSetup): number {
  const all = a.lenses.flatMap((x) => b.lenses.map((y) => nearness(x.spotDiameter, y.spotDiameter, SPOT_SCALE)));
  return Math.max(0, ...all);
}

/**
 * Likeness of two set-ups.
 *
 * Equation: k·(w + p + s + q)/4; k = 1 for the same kind of source, 0.3 else; w wavelengths, s the nearest spots of the
 * lenses and q rated powers by exp(−½·(ln ratio/scale)²) with scales 0.2, ln 2, ln 2; p the common share of the ranges
 * of pulse width in ln, 1 for two continuous sources, 0 for one of each.
 * Units: SI; result 1, 0 to 1. Errors: none. Source: own.
 */
export function setupLikeness(a: LaserSetup, b: LaserSetup): number {
  if (a.id === b.id) return 1;
  const widths = (s: LaserSetup) => s.pulses.map((p) => p.width);
  const bothPulsed = a.pulses.length > 0 && b.pulses.length > 0;
  const width = bothPulsed ? overlap(widths(a), widths(b)) : a.pulses.length === b.pulses.length ? 1 : 0;
  const mean =
    (nearness(a.wavelength, b.wavelength, WAVELENGTH_SCALE) +
      width +
      spotNearness(a, b) +
      nearness(a.ratedPower, b.ratedPower, POWER_SCALE)) /
    4;
  return (a.kind === b.kind ? 1 : OTHER_KIND) * mean;
}
