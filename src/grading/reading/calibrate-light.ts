import { quantile } from "#numerics";
import { invalid } from "#units";
import { decodeCode, encodeLinear, luminanceOfLightness } from "../colour-space.ts";
import { calibrationOf, type LightCalibration } from "./light-calibration.ts";
import { fieldFrame } from "./light-field.ts";
import { type LightEquations, lightEquations } from "./light-equations.ts";
import { LEAST, unbend } from "./tone-curve.ts";
import { bestOfGrid, searchTone, type Tone, unusual, usualTone } from "./tone-search.ts";
import type { LightSample, LightSamples } from "./view.ts";

/** L*, standard deviation of a printed or measured grey step (shared/grading: grey-card error σ 0.7). */
const GREY_SPREAD = 0.7;
/** ln light, standard deviation of one reading beside noise of the step: texture, print, stray light (own choice). */
const READING_SPREAD = 0.012;
/** ln light, standard deviation of the untouched layer from place to place (own choice). */
const LAYER_SPREAD = 0.02;
/** Linear light, standard deviation of stray light in the lens and noise: it tells in the dark (own choice). */
const STRAY_LIGHT = 5e-4;
const DARKEST = 1e-5;
/** Spread that the layer is held against, round by round: the light field is unknown at first, so that it begins wide. */
const SCALES = [0.12, 0.08, 0.06, 0.045, 0.03, 0, 0, 0] as const;
/** Rounds before which the tone is sought: from a grid, then near where it was. */
const SEARCHES: Readonly<Record<number, "grid" | "near">> = { 0: "grid", 3: "near", 6: "near" };
/** Share of the layer's samples that may lie in shadow and still leave its level right at the start (own choice). */
const LEVEL = 0.25;

/** Weight of a grey that is off by z of its spreads: by more than two it counts less. */
const trustGrey = (z: number): number => (Math.abs(z) <= 2 ? 1 : 2 / Math.abs(z));
/**
 * Weight of layer that is off by z spreads: glare adds light, a shadow takes it away; neither is the light field, so that
 * it hardly counts. Glare is the more common and has wide shoulders that a field would bend after.
 */
const trustLayer = (z: number, glare: number, shadow: number): number =>
  (1 + (z / (z > 0 ? glare : shadow)) ** 2) ** -2;
/** Spreads at which a sample of the layer counts a quarter, above and below: to find the field, and to say how well. */
const FIND = [0.4, 1] as const;
const JUDGE = [2, 2] as const;

const least = ({ rgb }: LightSample): number => Math.max(DARKEST, Math.min(...rgb));
const usable = (sample: LightSample): boolean => sample.rgb.every((v) => v < 0.985);

/**
 * Light of one photograph from its grey steps and the untouched layer: strength and shape of the tone's S, stray light, power, gains, a smooth
 * light field in log light, and the layer's colour, the same wherever it lies.
 *
 * Equation: ln(S⁻¹(v) − veil) = ln R/power + ln gain + field(x, y), R known on the greys, one unknown colour on the layer;
 * weighted least squares, robust against glare on the layer; strength, shape and veil by a search around it.
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

  const equationsNow = () =>
    lightEquations(
      frame,
      places.flatMap((sample, i) =>
        [0, 1, 2].map((channel) => ({
          sample,
          channel,
          target: i < steps.length ? Math.log(luminanceOfLightness(steps[i]!.lightness)) : null,
          // The three channels of a place are off together: they count as one.
          pull: Math.sqrt(weights[i]! / 3) / spread[i]!,
        })),
      ),
    );
  const codes = Float64Array.from({ length: 3 * places.length }, (_, i) =>
    encodeLinear(Math.min(1, Math.max(0, places[Math.floor(i / 3)]!.rgb[i % 3]!))),
  );
  let known = { strength: Number.NaN, shape: Number.NaN, light: codes };
  const bentBy = ({ veil, ...by }: Tone): Float64Array => {
    if (by.strength !== known.strength || by.shape !== known.shape)
      known = { ...by, light: codes.map((c) => decodeCode(unbend(c, by))) };
    return known.light.map((light) => Math.log(Math.max(LEAST, light - veil)));
  };
  // Greys alone speak on the tone: where glare lies on the layer, a bent curve would hide it.
  const costOf = (equations: LightEquations, tone: Tone): number => {
    const bent = bentBy(tone);
    const off = equations.offsets(bent, equations.solve(bent));
    let sum = unusual(tone);
    for (let i = 0; i < 3 * steps.length; i += 1) {
      const at = Math.floor(i / 3);
      sum += (weights[at]! * (off[i]! / spread[at]!) ** 2) / 3;
    }
    return sum;
  };

  let tone: Tone = usualTone;
  let equations = equationsNow();
  let bent = bentBy(tone);
  let unknowns = equations.solve(bent);
  let off = equations.offsets(bent, unknowns);
  levelLayer(off, 3 * steps.length);
  SCALES.forEach((scale, round) => {
    for (let i = 0; i < places.length; i += 1) {
      const worst = [0, 1, 2].map((c) => off[3 * i + c]!);
      if (i >= steps.length)
        weights[i] = Math.min(...worst.map((v) => trustLayer(v / Math.max(scale, spread[i]!), ...FIND)));
      // As long as the tone is not known, a dark step that seems off may be right.
      else weights[i] = round === 0 ? 1 : Math.min(...worst.map((v) => trustGrey(v / spread[i]!)));
    }
    equations = equationsNow();
    const search = SEARCHES[round];
    const cost = (t: Tone): number => costOf(equations, t);
    if (search === "grid") tone = bestOfGrid(cost, tone);
    if (search !== undefined) tone = searchTone(cost, tone);
    bent = bentBy(tone);
    unknowns = equations.solve(bent);
    off = equations.offsets(bent, unknowns);
  });
  for (let i = steps.length; i < places.length; i += 1) {
    weights[i] = Math.min(...[0, 1, 2].map((c) => trustLayer(off[3 * i + c]! / spread[i]!, ...JUDGE)));
  }
  const covariance = equationsNow().covariance();
  const greyOff = off.subarray(0, 3 * steps.length);
  const cardResidual = Math.sqrt(greyOff.reduce((sum, r) => sum + r * r, 0) / greyOff.length);
  return calibrationOf({ samples, frame, tone, unknowns, covariance, cardResidual });
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
