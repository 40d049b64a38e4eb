import {
  blendLaw,
  type Kernel,
  type LawTable,
  lawTable,
  type MetalResponse,
  oxideGrowthSquared,
  plumeThreshold,
  reactionTime,
  spreadResponse,
} from "#removal";
import type { Acceptance, BeamState, LaserSetup, PatchResult, Setting } from "#terms";
import { conditionLimits, metalConditionGrade } from "./condition.ts";
import type { Draw } from "./draw.ts";
import { lineCell, pulsedCell, type RasterCell } from "./raster.ts";
import { CLASS_COUNT } from "./point.ts";
import { stamp, type Stamped } from "./stamp.ts";
import type { Warming } from "./warming.ts";

const AMBIENT = 293.15;

/** One setting on one set-up, with everything that does not depend on the draw worked out once. */
export interface PatchPlan {
  readonly setup: LaserSetup;
  readonly setting: Setting;
  readonly beam: BeamState;
  readonly cell: RasterCell;
  readonly warming: Warming;
  /** "train": separate pulses or bursts; "line": the beam is on along the line */
  readonly events: "train" | "line";
}

/** Decides how a setting's light arrives and lays out its raster cell; `quick` as in `pulsedCell`. */
export function patchPlan(
  setup: LaserSetup,
  setting: Setting,
  beam: BeamState,
  warming: Warming,
  quick = false,
): PatchPlan {
  const radius = beam.spotDiameter / 2;
  // A burst that lasts longer than the spot takes to pass is a dashed line, not a pulse.
  const train = beam.onTime !== null && setting.frequency !== null && beam.onTime * setting.speed < radius;
  return {
    setup,
    setting,
    beam,
    warming,
    events: train ? "train" : "line",
    cell: train
      ? pulsedCell(radius, setting.speed / (setting.frequency as number), setting.lineSpacing, quick)
      : lineCell(radius, setting.lineSpacing),
  };
}

/**
 * Result of one setting in one version of the physics.
 *
 * Units: acceptance as in its type; `fluenceScale` multiplies the fluence and the mean power (1: as set), so that the
 * edges of a window can be searched beyond what the machine can set.
 * Range: fluenceScale above 0. Errors: none. Source: `lawTable`, `stamp`, `warmingOf`.
 */
export function predictPatch(
  draw: Draw,
  plan: PatchPlan,
  acceptance: Pick<Acceptance, "metalConditionMax" | "metalTemperatureMax">,
  fluenceScale = 1,
): PatchResult {
  const { beam, setting, setup } = plan;
  const { sample, strip, metal } = draw;
  const radius = (beam.spotDiameter / 2) * sample.spotFactor;
  const power = sample.powerFactor * fluenceScale;
  const duration = eventDuration(plan, radius);
  const shape = plan.events === "line" && setup.profile === "gaussian" ? "gaussian" : "square";
  const exact = setup.kind === "pulsed";
  const around = exact
    ? { first: draw.kernel(duration, "square"), second: draw.kernel(duration, "square"), weight: 0 }
    : draw.kernelsAround(duration, shape);
  const bare = around.first.nodes[0];
  const full = around.first.nodes[around.first.nodes.length - 1];
  const heatShare = Math.max(bare.heatShare, full.heatShare);
  const start = AMBIENT + plan.warming.perAbsorbedWatt * beam.meanPower * power * heatShare;
  const melting = sample.metal.meltingTemperature;
  const startForLaw = Math.min(start, melting - 1);
  const lateral = draw.lateralFactor({
    duration,
    radius,
    diffusivity: metal.diffusivity,
    speed: plan.events === "line" ? setting.speed : 0,
  });
  const fluence = centreFluence(plan, radius, power);
  const law = lawFor(draw, around, startForLaw, radius, lateral, shape, fluence);
  const spreads = shape === "gaussian";
  const response = spreads
    ? spreadResponse(draw.gaussian, sample.metal, {
        lateralFactor: lateral,
        radius,
        meanConductivity: metal.conductivity,
      })
    : draw.square;

  const bottom = strip.off[strip.off.length - 1];
  const base = {
    cell: plan.cell,
    law,
    fluence,
    radius,
    profile: setup.profile,
    lineEvents: plan.events === "line",
    passes: setting.passes,
    residueThickness: strip.residueThickness,
    adhesionScatter: bottom?.adhesionScatter ?? 0.1,
    incubation: bottom?.incubation ?? 1,
    pulseGap: setting.frequency === null ? 0 : plan.cell.multiplicity / setting.frequency,
    lineGap: plan.warming.lineTime,
    plume: exact ? plumeThreshold(duration, sample.plumeFactor) : Number.POSITIVE_INFINITY,
  };
  const flat = stamp({ ...base, thickness: strip.thickness });
  const pitted = strip.off.find((l) => l.pitAreaShare > 0);
  const pits = pitted ? stamp({ ...base, thickness: strip.thickness * (1 + pitted.pitDepthRatio) }) : null;
  const pitShare = pitted?.pitAreaShare ?? 0;

  const heat = metalHeat(draw, flat, law, response, startForLaw, duration);
  const hotRise = Math.max(heat.hottestRise, 1e-9);
  const peak = Math.min(
    Math.max(startForLaw + response.rise(hotRise, startForLaw), start),
    sample.metal.boilingTemperature,
  );
  const oxide = oxideThickness(draw, plan, peak, start, hotRise, duration, flat);
  const grade = metalConditionGrade(heat.meltDepth, heat.meltedShare, oxide);
  const hotGrade = start >= melting ? 3 : grade;
  const stay = stayHarm(draw, flat, law, start);
  return {
    residueFraction: pits ? (1 - pitShare) * flat.residue + pitShare * pits.residue : flat.residue,
    metalPeakTemperature: peak,
    meltDepth: heat.meltDepth,
    meltedShare: heat.meltedShare,
    oxideThickness: oxide,
    meltingRatio: heat.hottestRise / heat.onset,
    metalCondition: hotGrade,
    damageMargin: Math.min(
      marginToLimit(acceptance, heat, { startForLaw, start, duration, peak, line: plan.events === "line" }),
      stay.margin,
    ),
    startTemperature: start,
    stayLayerHarmed: stay.share,
    removedBy:
      flat.residue > 0.9
        ? "nothing"
        : flat.eatenShare > 0.5
          ? "eaten"
          : flat.stressShare > 0.5
            ? "stressed off"
            : "blown off",
  };
}

/** s: length of one event as the column sees it (square length, or 1/e² full width of a passing Gaussian). */
function eventDuration(plan: PatchPlan, radius: number): number {
  if (plan.events === "train") return plan.beam.onTime as number;
  return (2 * radius) / plan.setting.speed;
}

/**
 * Fluence at the middle of one event, J/m².
 *
 * Equation: pulse or burst F₀·E/(πr²), F₀ = 2 (Gaussian) or 1 (flat top); line (2P/πw²)·w√(π/2)/v or (P/πr²)·2r/v, so
 * that the fluence summed across a line is its energy P/v.
 * Units: radius m (1/e² or flat), power a factor on the plan's power; result J/m². Range: above 0. Errors: none.
 * Source: own derivation from the beam profiles of ISO 11146.
 */
export function centreFluence(plan: PatchPlan, radius: number, power: number): number {
  const { beam, setting, setup } = plan;
  const peakFactor = setup.profile === "gaussian" ? 2 : 1;
  const area = Math.PI * radius * radius;
  if (plan.events === "train") {
    const energy = beam.pulseEnergy ?? beam.meanPower / (setting.frequency as number);
    return (peakFactor * energy * power) / area;
  }
  const length = setup.profile === "gaussian" ? radius * Math.sqrt(Math.PI / 2) : 2 * radius;
  return (((peakFactor * beam.meanPower * power) / area) * length) / setting.speed;
}

function lawFor(
  draw: Draw,
  around: { first: Kernel; second: Kernel; weight: number },
  startTemperature: number,
  radius: number,
  lateral: number,
  shape: "square" | "gaussian",
  peakFluence: number,
): LawTable {
  const response = shape === "square" ? draw.square : draw.gaussian;
  const first = lawTable(draw.sample, around.first, response, {
    startTemperature,
    radius,
    lateralFactor: lateral,
    peakFluence,
  });
  if (around.weight === 0) return first;
  const second = lawTable(draw.sample, around.second, response, {
    startTemperature,
    radius,
    lateralFactor: lateral,
    lnFluenceFirst: first.lnFluenceFirst,
    peakFluence,
  });
  return blendLaw(first, second, around.weight);
}

/** Hottest linear rise of the metal anywhere, deepest melt, and the share of area that melted. */
function metalHeat(
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

/** m: oxide from the peaks of the events that hit a point hard, and from the warmth between them. */
function oxideThickness(
  draw: Draw,
  plan: PatchPlan,
  peak: number,
  start: number,
  rise: number,
  duration: number,
  stamped: Stamped,
): number {
  const { oxide } = draw.sample.metal;
  if (!oxide) return 0;
  const events = Math.max(1, stamped.strongEvents) * plan.setting.passes;
  const hot = oxideGrowthSquared(oxide, peak, events * reactionTime(duration, peak, rise, oxide.activationEnergy));
  const warm = oxideGrowthSquared(oxide, Math.min(start, draw.sample.metal.boilingTemperature), plan.warming.exposure);
  return Math.sqrt(hot + warm);
}

/** Share of area where the layer that stays gets too hot, and the margin to that. */
function stayHarm(draw: Draw, stamped: Stamped, law: LawTable, start: number): { share: number; margin: number } {
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
function marginToLimit(
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
