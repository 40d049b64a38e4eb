import { minimise1d, quantile } from "#numerics";
import { invalid } from "#units";
import { luminanceOfLightness } from "../colour-space.ts";
import { calibrationOf, type LightCalibration } from "./light-calibration.ts";
import { type FieldFrame, fieldFrame } from "./light-field.ts";
import { type LightRow, rowOf, solveLight, UNKNOWNS } from "./light-equations.ts";
import { STRENGTH_HIGH, STRENGTH_LOW, toneUndoer } from "./tone-curve.ts";
import type { LightSample, LightSamples } from "./view.ts";

/** L*, standard deviation of a printed or measured grey step (shared/grading: grey-card error σ 0.7). */
const GREY_SPREAD = 0.7;
/** ln light, standard deviation of one reading beside noise of the step: texture, print, stray light (own choice). */
const READING_SPREAD = 0.012;
/** ln light, standard deviation of the untouched layer from place to place (own choice). */
const LAYER_SPREAD = 0.02;
/** Linear light, standard deviation of stray light in the lens and noise: it tells in the dark (own choice). */
const STRAY_LIGHT = 5e-4;
/** Strength of the S as phones usually have it, and its spread (own choice, weak). */
const STRENGTH = { usual: 0.15, spread: 0.4 } as const;
const DARKEST = 1e-5;
/** Spread that the layer is held against, round by round: the light field is unknown at first, so that it begins wide. */
const SCALES = [0.25, 0.12, 0.07, 0.045, 0.03, 0, 0, 0] as const;
/** Rounds before which the strength is sought, with how far on either side. */
const SEARCHES: Readonly<Record<number, number>> = { 3: 0.9, 6: 0.12 };
/** Share of the layer's samples that may lie in shadow and still leave its level right at the start (own choice). */
const LEVEL = 0.25;

/** Weight of a grey that is off by z of its spreads: by more than two it counts less. */
const trustGrey = (z: number): number => (Math.abs(z) <= 2 ? 1 : 2 / Math.abs(z));
/** Weight of layer: glare adds light, a shadow takes it away; neither is the light field, so that it hardly counts. */
const trustLayer = (z: number): number => (1 + (z / (z > 0 ? 2 : 2.5)) ** 2) ** -2;

/** d ln light/d ln code light of a tone curve at v. */
const slopeAt = (bentOf: (v: number) => number, v: number): number =>
  Math.max(0.1, (bentOf(v * 1.02) - bentOf(v / 1.02)) / (2 * Math.log(1.02)));
const least = ({ rgb }: LightSample): number => Math.max(DARKEST, Math.min(...rgb));
const usable = (sample: LightSample): boolean => sample.rgb.every((v) => v < 0.985);

/**
 * Light of one photograph from its grey steps and the untouched layer: strength of the tone's S, power, gains, a smooth
 * light field in log light, and the layer's colour, the same wherever it lies.
 *
 * Equation: ln S⁻¹(v) = ln R/power + ln gain + field(x, y), R known on the greys, one unknown colour on the layer;
 * weighted least squares, robust against glare on the layer; the strength by a search around it.
 * Units: samples in linear light as written by the photograph (0 to 1), places m. Range: at least five grey steps that
 * are not clipped. Errors: InvalidInput for fewer, or for light that is not finite. Source: own; shared/grading.
 */
export function calibrateLight(samples: LightSamples): LightCalibration {
  const { greys, layer } = samples;
  for (const { rgb } of [...greys, ...layer]) {
    if (!rgb.every((v) => Number.isFinite(v))) invalid("light sample", "not a number", "", "must be finite");
  }
  const steps = greys.filter((g) => g.clippedShare < 0.05 && usable(g));
  if (steps.length < 5) invalid("grey steps", steps.length, "", "at least 5 that are not clipped are needed");
  const coat = layer.filter(usable);
  const frame = fieldFrame([...greys, ...layer]);
  const places = [...steps, ...coat];
  const weights = new Float64Array(places.length).fill(1e-9).fill(1, 0, steps.length);
  const spread = places.map((_, i) =>
    i < steps.length
      ? Math.hypot((3 * GREY_SPREAD) / (steps[i]!.lightness + 16), READING_SPREAD, STRAY_LIGHT / least(steps[i]!))
      : Math.hypot(LAYER_SPREAD, STRAY_LIGHT / least(coat[i - steps.length]!)),
  );

  const rowsAt = (strength: number): LightRow[] => {
    const undo = toneUndoer({ strength, power: 1 });
    const bentOf = (v: number): number => Math.log(Math.max(DARKEST, undo(v)));
    return places.flatMap((sample, i) =>
      sample.rgb.map((v, channel) => ({
        sample,
        channel,
        bent: bentOf(v),
        target: i < steps.length ? Math.log(luminanceOfLightness(steps[i]!.lightness)) : null,
        // The layer's texture must not speak on the strength: a curve that is flat there would seem to fit it best.
        // The three channels of a place are off together: they count as one.
        pull: Math.sqrt(weights[i]! / 3) / (spread[i]! * (i < steps.length ? 1 : slopeAt(bentOf, v))),
      })),
    );
  };
  // Greys alone speak on the strength: where glare lies on the layer, a bent curve would hide it.
  const cost = (strength: number): number => {
    const { residuals } = solveLight(frame, rowsAt(strength));
    const greys = residuals.subarray(0, 3 * steps.length).reduce((sum, r) => sum + r * r, 0);
    return greys + ((strength - STRENGTH.usual) / STRENGTH.spread) ** 2;
  };

  let strength: number = STRENGTH.usual;
  let solved = solveLight(frame, rowsAt(strength));
  let off = offsets(frame, solved.coefficients, rowsAt(strength));
  levelLayer(off, 3 * steps.length);
  SCALES.forEach((scale, round) => {
    for (let i = 0; i < places.length; i += 1) {
      const worst = [0, 1, 2].map((c) => off[3 * i + c]!);
      weights[i] =
        i < steps.length
          ? Math.min(...worst.map((v) => trustGrey(v / spread[i]!)))
          : Math.min(...worst.map((v) => trustLayer(v / Math.max(scale, spread[i]!))));
    }
    const reach = SEARCHES[round];
    if (reach !== undefined) {
      const low = Math.max(STRENGTH_LOW, strength - reach);
      strength = minimise1d(cost, low, Math.min(STRENGTH_HIGH, strength + reach), { tolerance: 0.01 }).x;
    }
    const rows = rowsAt(strength);
    solved = solveLight(frame, rows);
    off = offsets(frame, solved.coefficients, rows);
  });
  const greyOff = off.subarray(0, 3 * steps.length);
  const cardResidual = Math.sqrt(greyOff.reduce((sum, r) => sum + r * r, 0) / greyOff.length);
  return calibrationOf({ samples, frame, strength, solved, cardResidual });
}

/** ln light by which each row is off the solution. */
function offsets(frame: FieldFrame, unknowns: Float64Array, rows: readonly LightRow[]): Float64Array {
  const row = new Float64Array(UNKNOWNS);
  return Float64Array.from(rows, (r) => {
    rowOf(frame, r, row);
    let value = r.bent;
    for (let k = 0; k < UNKNOWNS; k += 1) value -= row[k]! * unknowns[k]!;
    return value / unknowns[0]!;
  });
}

/** Takes a low level of the layer off its rows, channel by channel: most of what differs is glare, and lies above. */
function levelLayer(off: Float64Array, from: number): void {
  if (off.length === from) return;
  for (let c = 0; c < 3; c += 1) {
    const own = off.subarray(from).filter((_, i) => i % 3 === c);
    const level = quantile(own, LEVEL);
    for (let i = from + c; i < off.length; i += 3) off[i]! -= level;
  }
}
