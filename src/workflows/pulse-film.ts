import { checkSetting } from "#beam";
import { type LightHook, solveColumn } from "#heat";
import { depositLight } from "#light";
import { eventPhysics } from "#patch";
import type { JoulePerSquareMetre, Kelvin, LaserSetup, LayerSample, Metre, Second, Setting } from "#terms";
import type { PartModel } from "./part-model.ts";
import { planOf } from "./predict.ts";

/** What the event of a film falls on: the stack as it came, or the metal once it is bare. */
export type FilmOn = "stack" | "metal";

/** One layer of a film, from the top. */
export interface FilmLayer {
  readonly name: string;
  readonly thickness: Metre;
  readonly mustStay: boolean;
}

/** A temperature that means something, for a line in the picture. */
export interface FilmMark {
  readonly words: string;
  readonly temperature: Kelvin;
}

/** Temperature over depth and time while one event (a pulse, a burst, the spot passing by) heats the stack. */
export interface PulseFilm {
  readonly on: FilmOn;
  readonly layers: readonly FilmLayer[];
  readonly metalName: string;
  /** m below the outer surface, edges of the cells, one more than there are cells */
  readonly edges: readonly Metre[];
  /** cells that belong to the layers; those of the metal follow */
  readonly layerCells: number;
  readonly times: readonly Second[];
  /** K, a frame for each time, a value for each cell; cells that have left hold the start */
  readonly frames: readonly Float32Array[];
  /** cells that have left, one number per frame */
  readonly gone: readonly number[];
  /** share decomposed of each layer cell, a frame for each time */
  readonly decomposed: readonly Float32Array[];
  readonly duration: Second;
  readonly fluence: JoulePerSquareMetre;
  readonly start: Kelvin;
  /** K, the highest of the outer surface and of the metal's */
  readonly topPeak: Kelvin;
  readonly metalPeak: Kelvin;
  readonly meltDepth: Metre;
  readonly marks: readonly FilmMark[];
  readonly caveats: readonly string[];
}

/** 1/e² full width of a passing Gaussian spot to the full width at half maximum that the column takes. */
const FWHM_OF_WIDTH = Math.sqrt(Math.LN2 / 2);
const DURING = 18;
const AFTER = 30;
/** The cooling is followed for this many lengths of the event at least, and at most until the next one. */
const FOLLOW = 30;
const METAL_SHOWN = 3;
/** Light is worked out anew each time that this share of the layers has gone. */
const LIGHT_UPDATES = 40;

/** Even moments while the light is on, then in equal ratios. */
function moments(duration: Second, end: Second): number[] {
  const on = Array.from({ length: DURING }, (_, i) => (duration * (i + 1)) / DURING);
  const after = Array.from({ length: AFTER }, (_, i) => duration * (end / duration) ** ((i + 1) / AFTER));
  after[AFTER - 1] = end;
  return [0, ...on, ...after];
}

/**
 * Layers for the full column. What has decomposed leaves with its gas: a char share below the column's own limit says
 * so, because char that stayed under the light would be heated beyond anything that solids reach.
 */
const leaving = (layers: readonly LayerSample[]) =>
  layers.map((l) => ({
    ...l,
    char:
      l.decomposition === null
        ? null
        : { fraction: 0, absorption: l.absorption, conductivity: l.conductivity, heatCapacity: l.heatCapacity },
  }));

/** Two-flux light through what is left of the layers, cell by cell; asked again as they are taken down. */
function lightOn(layers: readonly LayerSample[], absorptance: number): LightHook {
  return (grid, progress) => {
    const layerShares = new Float64Array(grid.layerCount);
    const first = progress?.firstCell ?? 0;
    if (first >= grid.layerCount) return { layerShares, metalShare: absorptance };
    const left = Array.from({ length: grid.layerCount - first }, (_, k) => {
      const i = first + k;
      const { absorption, scattering } = layers[grid.layerOf[i]!]!;
      return { thickness: progress?.width[i] ?? grid.edges[i + 1]! - grid.edges[i]!, absorption, scattering };
    });
    const edges = new Float64Array(left.length + 1);
    left.forEach((l, k) => {
      edges[k + 1] = edges[k]! + l.thickness;
    });
    const top = layers[grid.layerOf[first]!]!;
    const shares = new Float64Array(left.length);
    const { metalAbsorbed } = depositLight(
      {
        layers: left,
        metalAbsorptance: absorptance,
        externalReflectance: top.externalReflectance,
        internalReflectance: top.internalReflectance,
      },
      edges,
      shares,
    );
    layerShares.set(shares, first);
    return { layerShares, metalShare: metalAbsorbed };
  };
}

/**
 * Film of one event at a setting, in the central version of the physics: the full column, temperature-dependent, with
 * latent heats and decomposition.
 *
 * Equation: `solveColumn` lit by `depositLight`; fluence, length and start as the prediction takes them
 * (`eventPhysics`), the fluence of a line times the share of the column's rise that is left as heat spreads sideways.
 * Units: SI. Range: a setting that the set-up can run. Errors: InvalidInput otherwise. Source: those named.
 */
export function pulseFilm(model: PartModel, setup: LaserSetup, setting: Setting, on: FilmOn): PulseFilm {
  checkSetting(setup, setting);
  const plan = planOf(model, setup, setting);
  const draw = model.central;
  const physics = eventPhysics(draw, plan);
  const { duration, line, radius } = physics;
  const { metal } = draw.sample;
  const layers = on === "stack" ? draw.sample.layers : [];
  const gaussian = line && setup.profile === "gaussian";
  const spread = draw.lateralFactor({
    duration,
    radius,
    diffusivity: draw.metal.diffusivity,
    speed: line ? setting.speed : 0,
  });
  const start = Math.min(physics.bound, metal.meltingTemperature - 1);
  // The Gaussian of a passing spot peaks at 1.5 of its widths at half maximum and is over after 3.
  const lit = gaussian ? 3 * FWHM_OF_WIDTH * duration : duration;
  const gap = line || setting.frequency === null ? plan.warming.lineTime : plan.cell.multiplicity / setting.frequency;
  const end = Math.max(1.5 * lit, Math.min(FOLLOW * lit, gap));
  const fluence = physics.fluence * spread;
  const times = moments(lit, end);
  const thickness = layers.reduce((sum, l) => sum + l.thickness, 0);
  const column = solveColumn({
    layers: leaving(layers),
    metal,
    light: lightOn(layers, metal.absorptance),
    pulse: {
      fluence,
      duration: gaussian ? FWHM_OF_WIDTH * duration : duration,
      shape: gaussian ? "gaussian" : "square",
    },
    startTemperature: start,
    endTime: end,
    snapshotTimes: times,
    lightStep: thickness / LIGHT_UPDATES,
    grid: { layerCells: 40, metalCells: 60 },
  });
  const cells = shownCells(column.grid, draw.metal.diffusivity, lit);
  return {
    on,
    layers: layers.map((l, i) => ({
      name: model.stack.layers[i]!.kind.name,
      thickness: l.thickness,
      mustStay: l.mustStay,
    })),
    metalName: model.stack.metal.name,
    edges: [...column.grid.edges.slice(0, cells + 1)],
    layerCells: column.grid.layerCount,
    times,
    frames: column.snapshots.map((s) =>
      Float32Array.from({ length: cells }, (_, i) => (i < s.firstCell ? start : s.temperature[i]!)),
    ),
    gone: column.snapshots.map((s) => s.firstCell),
    decomposed: column.snapshots.map((s) => Float32Array.from(s.conversion)),
    duration: lit,
    fluence,
    start,
    topPeak: column.topPeak,
    metalPeak: column.metalSurfacePeak,
    meltDepth: column.meltDepth,
    marks: marksOf(model, layers),
    caveats: caveatsOf(model, on, line, spread, column.topPeak),
  };
}

/** Cells down to a few diffusion lengths below the layers: deeper ones stay as cold as they were. */
function shownCells(
  grid: { readonly edges: Float64Array; readonly layerCount: number },
  diffusivity: number,
  lit: number,
) {
  const top = grid.edges[grid.layerCount]!;
  const depth = Math.max(METAL_SHOWN * Math.sqrt(diffusivity * lit), 0.35 * top);
  const last = grid.edges.findIndex((e) => e >= top + depth);
  return last < 0 ? grid.edges.length - 1 : Math.max(grid.layerCount + 1, last);
}

function marksOf(model: PartModel, layers: readonly LayerSample[]): FilmMark[] {
  const { metal } = model.central.sample;
  return [
    ...layers.flatMap((l, i) =>
      l.ablationTemperature === null
        ? []
        : [{ words: `${model.stack.layers[i]!.kind.name} leaves`, temperature: l.ablationTemperature }],
    ),
    { words: `${model.stack.metal.name} melts`, temperature: metal.meltingTemperature },
    { words: `${model.stack.metal.name} boils`, temperature: metal.boilingTemperature },
  ];
}

function caveatsOf(model: PartModel, on: FilmOn, line: boolean, spread: number, topPeak: Kelvin): string[] {
  const lines = [
    on === "stack"
      ? "The first event on the untouched stack; later ones find less of it."
      : "One event on bare metal, as the last ones of a patch find it.",
    "One version of the physics, the central one, under the middle of the spot. What decomposes leaves at once, without char and without shading the light; nothing bursts off.",
  ];
  if (topPeak > model.central.sample.metal.boilingTemperature + 1)
    lines.push(
      "The top of the stack runs hotter than solids do: read what is above the scale as vapour, not as a temperature.",
    );
  if (line && spread < 0.9)
    lines.push(
      "Heat that spreads sideways under the moving spot is taken off the light; the profile in depth is that of a wide spot.",
    );
  if (model.part.mixture.length > 1)
    lines.push(`Of ${model.part.mixture.length} possible stacks the likeliest is shown.`);
  return lines;
}
