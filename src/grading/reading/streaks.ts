import { invalid } from "#units";
import type { Measured } from "./estimate.ts";
import { filled, gridOf, luminance } from "./streak-face.ts";
import { chanceAmong, chanceOf, type Peak, ratioOf, sharpened } from "./streak-peak.ts";
import { STRIPS, strippedSpectrum } from "./streak-spectrum.ts";
import type { PatchView } from "./view.ts";

/** The strongest streaks of a patch: lines that the scan left. */
export interface Streaks {
  /** mm from line to line */
  readonly period: Measured;
  /** rise above the mean luminance over that mean, before the blur of the photograph */
  readonly strength: Measured;
  /** rad, direction of the lines against the x axis of the coupon, −π/2 to π/2 */
  readonly angle: number;
  /** chance that a patch without streaks would show as much somewhere */
  readonly falseAlarm: number;
  /** false alarm below 0.01 */
  readonly found: boolean;
  /** mm, finest period that this photograph tells: 4 pixels, or where its blur leaves a quarter */
  readonly finest: number;
}

/** Pixels per period at least (shared/grading: 4-6). */
const LEAST_PIXELS = 4;
/** Periods in a patch at least: fewer are an uneven face. */
const LEAST_PERIODS = 5;
/** Lines lie along an axis of the coupon, less what it was laid askew by, rad. */
const ASKEW = 0.07;
const BLUR_LEFT = 0.25;
const FALSE_ALARM = 0.01;

/** What a Gaussian blur leaves of a sine; frequency and spread in matching units. */
const left = (frequency: number, blur: number): number => Math.exp(-2 * (Math.PI * blur * frequency) ** 2);

/**
 * Streaks of a patch by profiles along sheared lines, whose phase must hold over strips.
 *
 * Equation: for each of two axes and shears up to 0.07 rad, strips' transforms F_k: T = (K − 1)·K·|F̄|²/Σ|F_k − F̄|²,
 * chance (1 + T/(K − 1))^(0.9·(1 − K)) for noise that reaches a little from strip to strip; the larger of it and the chance
 * (1 + R·ln 2/8)^−8 that a smooth spectrum stands R times above the median of its neighbours; over all that was looked at
 * 1 − (1 − chance)^looks. strength 2|F̄|/window over the mean, over what the blur leaves.
 * Units: view inner, in reflectance; u its places between bare and coat, where known; period mm, angle rad. Range: 32 pixels each way. Errors: InvalidInput for fewer.
 * Source: own; shared/grading. False alarms are held by tests on noise, mottle and islands.
 */
export function streaksOf(view: PatchView, u?: Float32Array): Streaks {
  const { width, height, pixelsPerMm, blur } = view;
  if (Math.min(width, height) < 32)
    invalid("patch", `${width} × ${height}`, "px", "must have 32 × 32 px to tell streaks");
  const high = Math.min(
    1 / LEAST_PIXELS,
    Math.sqrt(-Math.log(BLUR_LEFT) / 2) / (Math.PI * Math.max(1e-9, blur * pixelsPerMm)),
  );
  let best: Peak | null = null;
  let looks = 0;
  // Lines of residue show in the whole face; lines in the metal only once islands of residue are out of the way.
  const whole = { values: luminance(view), share: 1 };
  const faces = u === undefined ? [whole] : [whole, filled(whole.values, u)];
  for (const { face, across } of faces.flatMap((face) => [false, true].map((across) => ({ face, across })))) {
    const grid = gridOf(face.values, view, across);
    const step = 1 / (2 * high * grid.width);
    const turns = Math.ceil(ASKEW / step);
    for (let turn = -turns; turn <= turns; turn += 1) {
      const slope = turn * step;
      const length = grid.height - Math.ceil(Math.abs(slope) * grid.width);
      const lines = strippedSpectrum(grid, slope, LEAST_PERIODS / length, high);
      looks += lines.length / 2;
      for (let m = 0; m < lines.length; m += 1) {
        const own = chanceOf(lines[m]!);
        if (best !== null && own >= best.chance) continue;
        const chance = Math.max(own, chanceAmong(lines, m));
        if (best === null || chance < best.chance)
          best = {
            line: lines[m]!,
            frequency: lines[m]!.frequency,
            chance,
            slope,
            across,
            length,
            grid,
            step,
            share: face.share,
          };
      }
    }
  }
  if (best === null) invalid("patch", `${width} × ${height}`, "px", "must be sharp enough to tell streaks");
  return summary(sharpened(best), looks, view, high);
}

function summary(peak: Peak, looks: number, view: PatchView, high: number): Streaks {
  const { pixelsPerMm, blur } = view;
  const frequency = peak.frequency * pixelsPerMm;
  // What a blur takes off, and islands that cannot show lines, is given back.
  const blurred = left(frequency, blur) * peak.share;
  const lean = Math.atan(peak.slope);
  // Lines along x that rise with the rows fall with y, which runs the other way.
  const along = peak.across ? (lean >= 0 ? lean - Math.PI / 2 : lean + Math.PI / 2) : -lean;
  const spread = 1 / (peak.length * Math.sqrt(Math.max(1, ratioOf(peak.line)))) + 0.04 / peak.length;
  const falseAlarm = -Math.expm1(looks * Math.log1p(-Math.min(peak.chance, 1 - 1e-12)));
  return {
    period: { value: 1 / frequency, uncertainty: (spread * pixelsPerMm) / frequency ** 2 },
    strength: {
      value: (2 * Math.sqrt(peak.line.coherent)) / blurred,
      uncertainty: (2 * Math.sqrt(peak.line.apart / (2 * STRIPS * (STRIPS - 1)))) / blurred,
    },
    angle: along,
    falseAlarm,
    found: falseAlarm < FALSE_ALARM,
    finest: 1 / (high * pixelsPerMm),
  };
}
