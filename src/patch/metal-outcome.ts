import {
  convertedShare,
  GAS_CONSTANT,
  type LawTable,
  type MetalResponse,
  oxideGrowthSquared,
  reactionTime,
  sharpPassReactionTime,
  sharpPulseReactionTime,
} from "#removal";
import type { Acceptance } from "#terms";
import { conditionLimits } from "./condition.ts";
import type { Draw } from "./draw.ts";
import type { PatchPlan } from "./patch-plan.ts";
import { CLASS_COUNT } from "./point-spec.ts";
import type { Stamped } from "./stamp.ts";

/** K, of the shop. */
export const AMBIENT = 293.15;

/** Hottest linear rise of the metal anywhere, deepest melt, and the share of area that melted. */
export function metalHeat(
  draw: Draw,
  stamped: Stamped,
  law: LawTable,
  response: MetalResponse,
  start: number,
  duration: number,
) {
  const onset = response.meltOnset(start);
  const bareRise = law.metalRise[0];
  const { bareFluence, coveredRise } = stamped;
  const rises = new Float64Array(bareFluence.length);
  let hottest = 0;
  let melted = 0;
  for (let i = 0; i < rises.length; i++) {
    const bare = bareFluence[i] * bareRise;
    const covered = coveredRise[(i / CLASS_COUNT) | 0];
    const rise = bare > covered ? bare : covered;
    rises[i] = rise;
    if (rise > hottest) hottest = rise;
    if (rise > onset) melted++;
  }
  const meltedShare = melted / rises.length;
  const meltDepth = meltedShare > 0 ? response.meltDepth(hottest, start, duration, draw.metal.diffusivity) : 0;
  const exceeded = (share: number) => nthLargest(rises, Math.floor(share * rises.length));
  const deepOnset = () => response.riseForMeltDepth(conditionLimits.microMelt, start, duration, draw.metal.diffusivity);
  return { hottestRise: hottest, meltDepth, meltedShare, onset, deepOnset, exceeded };
}

/** The n-th largest value, counted from 0; the array is put in another order (Hoare's selection). */
function nthLargest(values: Float64Array, n: number): number {
  let low = 0;
  let high = values.length - 1;
  while (low < high) {
    const pivot = values[(low + high) >> 1];
    let i = low;
    let j = high;
    while (i <= j) {
      while (values[i] > pivot) i++;
      while (values[j] < pivot) j--;
      if (i <= j) {
        const swap = values[i];
        values[i++] = values[j];
        values[j--] = swap;
      }
    }
    if (n <= j) high = j;
    else if (n >= i) low = i;
    else break;
  }
  return values[n];
}

/**
 * Oxide from the peaks of the events that hit a point hard, and from the warmth between them, m.
 *
 * Equation: x = √(x²(peaks) + x²(warmth)), parabolic growth at the peak, at most at melting, over the time that each
 * event counts for (`sharpPulseReactionTime`, `sharpPassReactionTime`), and at the start over the patch's exposure.
 * Units: peak and start K, duration s; result m. Range: beyond the fit of the constants a rough guide. Errors: none.
 * Source: `oxideGrowthSquared`.
 */
export function oxideThickness(
  draw: Draw,
  plan: PatchPlan,
  peak: number,
  start: number,
  duration: number,
  stamped: Stamped,
): number {
  const { oxide } = draw.sample.metal;
  if (!oxide) return 0;
  const events = Math.max(1, stamped.strongEvents) * plan.setting.passes;
  // Above melting the film breaks up on the liquid; what it would grow to there is no film thickness.
  const hottest = Math.min(peak, draw.sample.metal.meltingTemperature);
  const hot = oxideGrowthSquared(oxide, hottest, events * hotTime(plan, hottest, hottest - start, duration, oxide));
  const warm = oxideGrowthSquared(oxide, Math.min(start, draw.sample.metal.boilingTemperature), plan.warming.exposure);
  return Math.sqrt(hot + warm);
}

/** s that one event counts for at its peak: by the forms for sharp peaks, by the plain upper estimate where it is flat. */
function hotTime(
  plan: PatchPlan,
  peak: number,
  rise: number,
  duration: number,
  oxide: { readonly activationEnergy: number },
): number {
  const { activationEnergy } = oxide;
  const lnRate = activationEnergy / (GAS_CONSTANT * peak);
  if (!(rise > 1) || lnRate < 4.5 || (lnRate * rise) / peak < 6)
    return reactionTime(duration, peak, Math.max(rise, 1e-9), activationEnergy);
  return plan.events === "line"
    ? sharpPassReactionTime(duration / 2, peak, rise, activationEnergy)
    : sharpPulseReactionTime(duration, peak, rise, activationEnergy);
}

/** Kinds of layer that are iron rust; others do not turn to magnetite. */
const RUST = "red-rust";

/** Event lengths at which the history of a layer's mean is written down for `magnetiteShare`. */
const HISTORY = [0, 0.1, 0.25, 0.5, 0.75, 1, 1.1, 1.3, 1.6, 2, 3, 5, 10];

/**
 * Share of a rust layer that one event turns to magnetite.
 *
 * Equation: `convertedShare` over T = T₀ + ΔT·(√s − √(s − 1)), s = t/τ, the second root from s = 1 on: a surface under
 * constant flux and after it.
 * Units: meanRise ΔT of the layer's mean and start T₀ K, duration τ s; result 1. Range: above 0; 0 for other layers.
 * Errors: those of `convertedShare`. Source: Carslaw and Jaeger 1959, 2.9, for the shape; an order of magnitude.
 */
export function magnetiteShare(draw: Draw, meanRise: number, start: number, duration: number): number {
  if (!draw.strip.off.some((l) => l.kindId === RUST)) return 0;
  const { conversionRate, conversionEnergy } = draw.sample;
  return convertedShare(
    HISTORY.map((s) => s * duration),
    HISTORY.map((s) => start + meanRise * (Math.sqrt(s) - Math.sqrt(Math.max(0, s - 1)))),
    conversionRate,
    conversionEnergy,
  );
}

/** Share of area where the layer that stays gets too hot, and the margin to that. */
export function stayHarm(
  draw: Draw,
  stamped: Stamped,
  law: LawTable,
  start: number,
): { share: number; margin: number } {
  const layer = draw.strip.stay[0];
  if (!layer || layer.damageTemperature === null) return { share: 0, margin: Number.POSITIVE_INFINITY };
  const allowed = Math.max(layer.damageTemperature - start, 1e-6);
  let harmed = 0;
  let hottest = 1e-9;
  for (const fluence of stamped.bareFluence) {
    const rise = fluence * law.stayRise[0];
    hottest = Math.max(hottest, rise);
    if (rise > allowed) harmed++;
  }
  return { share: harmed / stamped.bareFluence.length, margin: Math.log(allowed / hottest) };
}

/**
 * ln of the factor by which the heat that arrives (the power, as long as no plume shades it) may grow before the acceptance's metal limit is met. Warmth before the event and
 * the event's own rise both grow with power, so the distance is between totals above ambient.
 */
export function marginToLimit(
  acceptance: Pick<Acceptance, "metalConditionMax" | "metalTemperatureMax">,
  heat: { hottestRise: number; onset: number; deepOnset(): number; exceeded(share: number): number },
  at: { startForLaw: number; start: number; duration: number; peak: number; line: boolean },
): number {
  const warm = at.start - AMBIENT;
  const allowedWarm = at.startForLaw - AMBIENT;
  let margin = MARGIN_CAP;
  if (acceptance.metalConditionMax < 3) {
    // Unmelted but for the share that the grades overlook…
    margin = lnRatio(allowedWarm + heat.onset, warm + heat.exceeded(conditionLimits.microMeltShare));
    if (acceptance.metalConditionMax === 2) {
      // …or molten, but neither deep nor wide.
      const deep = lnRatio(allowedWarm + heat.deepOnset(), warm + heat.hottestRise);
      const wide = lnRatio(allowedWarm + heat.onset, warm + heat.exceeded(conditionLimits.meltShare));
      margin = Math.max(margin, Math.min(deep, wide));
    }
  }
  if (acceptance.metalTemperatureMax !== null) {
    const held = at.duration >= HELD_TIME || at.line ? at.peak : at.start;
    margin = Math.min(margin, lnRatio(acceptance.metalTemperatureMax - AMBIENT, held - AMBIENT));
  }
  return Math.min(MARGIN_CAP, margin);
}

/** ln power: farther from a limit than a factor of twenty is simply far. */
const MARGIN_CAP = 3;

function lnRatio(allowed: number, reached: number): number {
  return Math.log(Math.max(allowed, 1e-6) / Math.max(reached, 1e-6));
}

/** s: a temperature limit of a part is about heat that lasts; nanosecond skins are judged by melting, not by it. */
export const HELD_TIME = 1e-3;
