import { layerKind, metal, setup } from "#library";
import { quantile, sobolPoints } from "#numerics";
import { CLASS_COUNT, Draw, type MetalAnswers, PointHistory, predictPatch } from "#patch";
import { lawTable, plumeThreshold } from "#removal";
import type { ColourClass, LaserSetup, PatchResult, Setting, WeightedStack } from "#terms";
import { createPartModel, type PartModel, planOf } from "#workflows";

export const SEED = 29;
export const START = 293.15;

/** 90 % band. */
export interface Band {
  readonly low: number;
  readonly median: number;
  readonly high: number;
}

/** One quantity of a row: predicted first, then what was published, and what they say to each other. */
export interface Check {
  readonly what: string;
  readonly unit: string;
  readonly band: Band;
  readonly published: string;
  /** null where nothing can be said of it */
  readonly met: boolean | null;
}

/** What the product says of one row. */
export interface RowAnswer {
  readonly id: string;
  /** what was computed, over which ranges of the unknowns, and what the library lacks */
  readonly how: string;
  /** the first one is the band of the row */
  readonly checks: readonly Check[];
  readonly why: string;
}

export function bandOf(values: readonly number[]): Band {
  return { median: quantile(values, 0.5), low: quantile(values, 0.05), high: quantile(values, 0.95) };
}

export const share = <T>(list: readonly T[], holds: (item: T, at: number) => boolean): number =>
  list.filter(holds).length / list.length;

export const percent = (value: number): string => `${(value * 100).toFixed(0)} %`;

/** A share of versions is one number: a band of no width. */
export const flat = (value: number): Band => ({ low: value, median: value, high: value });

const answers = new Map<string, MetalAnswers>();

/** One layer: kind, colour, thickness range in µm (left out: the library's usual one), whether it must stay. */
export type LayerWords = readonly [string, ColourClass, (readonly [number, number])?, boolean?];

/** A part with each of the stacks equally likely. */
export function modelOf(
  metalId: string,
  stacks: readonly (readonly LayerWords[])[],
  drawCount: number,
  metalThickness = 3e-3,
): PartModel {
  const mixture: WeightedStack[] = stacks.map((layers) => ({
    weight: 1 / stacks.length,
    assumption: "",
    stack: {
      metal: metal(metalId),
      metalThickness,
      layers: layers.map(([kind, colour, range, mustStay = false]) => ({
        kind: layerKind(kind),
        colour,
        mustStay,
        thickness: range
          ? {
              ...layerKind(kind).usualThickness,
              value: Math.sqrt(range[0] * range[1]) * 1e-6,
              low: range[0] * 1e-6,
              high: range[1] * 1e-6,
              distribution: "lognormal" as const,
            }
          : layerKind(kind).usualThickness,
      })),
    },
  }));
  return createPartModel(
    {
      id: metalId,
      name: metalId,
      material: metalId,
      mixture,
      area: 1,
      count: 1,
      faces: [],
      acceptance: { residueMax: 0.05, metalConditionMax: 1, metalTemperatureMax: null, tests: [], confidence: 0.8 },
      rateWanted: null,
      lead: "no",
      chromate: "no",
      unknowns: [],
    },
    { seed: SEED, drawCount, answers },
  );
}

/** Evenly spread shares for the unknown inputs of each draw. */
export const unknowns = (count: number, dimensions: number): Float64Array[] =>
  sobolPoints(count, dimensions, { seed: SEED + 1 });

export const between = (low: number, high: number, u: number): number => low * (high / low) ** u;

/** A pulsed raster said by what a paper says: spot, width, peak fluence, overlap. */
export interface PulsedCase {
  readonly width: number;
  readonly spot: number;
  /** J/m², at the middle of the spot */
  readonly fluencePeak: number;
  readonly frequency: number;
  readonly pitch: number;
  readonly spacing: number;
  readonly passes: number;
}

/** A Gaussian pulsed source with just this spot and width, not limited in energy. */
export function pulsedSetup(width: number, spot: number): LaserSetup {
  const base = setup("pulsed-200");
  const rayleigh = (Math.PI * spot * spot) / (4 * base.beamQualityM2 * base.wavelength);
  return {
    ...base,
    id: "published",
    ratedPower: 1e5,
    lenses: [{ ...base.lenses[0], id: "spot", spotDiameter: spot, rayleighLength: rayleigh }],
    pulses: [{ width, energyMax: 100, frequencyMax: 1e7 }],
    frequencyMax: 1e7,
    speedMax: 100,
  };
}

export function pulsedSetting(c: PulsedCase): Setting {
  const energy = (c.fluencePeak * Math.PI * c.spot * c.spot) / 8;
  return {
    power: energy * c.frequency,
    level: 1,
    duty: 1,
    frequency: c.frequency,
    pulseWidth: c.width,
    speed: c.pitch * c.frequency,
    lineSpacing: c.spacing,
    passes: c.passes,
    defocus: 0,
    lens: "spot",
  };
}

/** How one draw answers to a pulsed raster, at any factor on its power. */
export function rasterOf(model: PartModel, draw: Draw, c: PulsedCase): (scale?: number) => PatchResult {
  const plan = planOf(model, pulsedSetup(c.width, c.spot), pulsedSetting(c));
  return (scale = 1) => predictPatch(draw, plan, model.part.acceptance, scale);
}

/** Smallest value at which something holds, between two ends, to 2 %; the upper end where it never does. */
export function leastAt(low: number, high: number, holds: (value: number) => boolean): number {
  let a = Math.log(low);
  let b = Math.log(high);
  while (b - a > 0.02) {
    const middle = (a + b) / 2;
    if (holds(Math.exp(middle))) b = middle;
    else a = middle;
  }
  return Math.exp(b);
}

/** Equal events on one place under a flat beam: pulses one after another, or one dwell of a continuous beam. */
export function onePlace(
  draw: Draw,
  event: { readonly duration: number; readonly radius: number; readonly period: number; readonly pulsed: boolean },
): (fluence: number, count: number) => PointHistory {
  const { duration, radius, period, pulsed } = event;
  const { sample, strip, metal: body } = draw;
  const bottom = strip.off[strip.off.length - 1];
  const lateralFactor = draw.lateralFactor({ duration, radius, diffusivity: body.diffusivity, speed: 0 });
  const kernel = draw.kernel(duration, "square");
  const law = lawTable(sample, kernel, draw.square, { startTemperature: START, radius, lateralFactor });
  return (fluence, count) => {
    const history = new PointHistory({
      law,
      fluence,
      profile: "top-hat",
      lineEvents: false,
      passes: 1,
      thickness: strip.thickness,
      residueThickness: strip.residueThickness,
      adhesionScatter: bottom.adhesionScatter,
      incubation: bottom.incubation,
      pulseGap: period,
      lineGap: 1,
      multiplicity: 1,
      ...(pulsed ? { plume: plumeThreshold(duration, sample.plumeFactor) } : {}),
    });
    const starts = new Uint8Array(count);
    starts[0] = 1;
    history.run(new Float64Array(count), starts, 0);
    return history;
  };
}

/** Whether a place counts as clean: eaten through, char and all, or half of it thrown off. */
export const gone = (draw: Draw, h: PointHistory): boolean =>
  h.left + h.char <= draw.strip.residueThickness || h.open >= CLASS_COUNT / 2;

/** The same version of the physics whose layers leave no char. */
export function withoutChar(draw: Draw): Draw {
  const layers = draw.sample.layers.map((l) =>
    l.decomposition ? { ...l, decomposition: { ...l.decomposition, charFraction: 0 } } : l,
  );
  return new Draw({ ...draw.sample, layers }, answers.get(draw.sample.metal.metalId) as MetalAnswers);
}
