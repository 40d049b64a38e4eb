import { normalCdf } from "#numerics";
import type { LawTable } from "#removal";
import type { Kelvin, Metre, Radian } from "#terms";
import { invalid, requireInRange, requirePositive } from "#units";
import type { Draw } from "./draw.ts";
import {
  lineCount,
  lineDose,
  lineY,
  type Phase,
  pulsedEvents,
  type ScanEvents,
  type ScanLayout,
  type Turns,
} from "./map-events.ts";
import { type MapFigures, mapFigures } from "./map-figures.ts";
import { type MapGrid, requireGrid } from "./map-grid.ts";
import { type CellHeat, cellHeat } from "./map-heat.ts";
import { type MapPhysics, mapPhysics, shapeOf } from "./map-physics.ts";
import { startAt, startMap } from "./map-start.ts";
import { eventTiles } from "./map-tiles.ts";
import { PointHistory } from "./point.ts";
import type { PatchPlan } from "./predict-patch.ts";

export interface PatchMapOptions {
  /** m, the patch along and across the lines */
  readonly width: Metre;
  readonly height: Metre;
  /** cells; left out: the corner where the scan begins, up to 20 spot radii, in cells of a fifth of the radius */
  readonly grid?: MapGrid;
  readonly turns?: Turns;
  readonly phase?: Phase;
  readonly serpentine?: boolean;
  readonly firstPulses?: readonly number[];
  /** "bound": the plan's warming everywhere; "raster": superposition over the raster, place by place */
  readonly startTemperature?: "bound" | "raster";
  readonly fluenceScale?: number;
  /** rad, tilt of the face about an axis across the lines: the spot is drawn out along them */
  readonly tilt?: Radian;
  /** m, x and y in turn: events of one pass in time order instead of the raster's (wobble, free paths); pulsed only */
  readonly places?: Float64Array;
}

/** Maps of one patch in one version of the physics, row by row, and what they say together. */
export interface PatchMap {
  readonly grid: MapGrid;
  /** m of layer and char left where it has not let go */
  readonly left: Float32Array;
  /** share of the place still covered with more than the residue thickness */
  readonly covered: Float32Array;
  /** standard deviations of ln adhesion overcome: places weaker than this have let go */
  readonly freed: Float32Array;
  /** m of char */
  readonly char: Float32Array;
  /** J/m², highest fluence that met bare metal, 0 where it stayed covered */
  readonly bareFluence: Float32Array;
  /** K, m, m, share of the place whose metal melted */
  readonly peak: Float32Array;
  readonly meltDepth: Float32Array;
  readonly melted: Float32Array;
  readonly oxide: Float32Array;
  readonly startTemperature: Float32Array;
  /** m, thickness that was there, and that counts as residue */
  readonly thickness: Metre;
  readonly residueThickness: Metre;
  readonly figures: MapFigures;
}

/** Events farther than this many radii away deposit less than 1.2 % of the peak, as in the repeating cell. */
const CUTOFF = 1.5;
/** Laws over the temperature before the event: so many steps between the coldest and the hottest place. */
const LAWS = 8;

/**
 * The map of a whole patch, or of a corner of it: every event where it really falls, and the history of every cell.
 *
 * The local physics is that of `predictPatch` (`PointHistory`, law table, incubation, adhesion classes, kept heat); the
 * places are real: starts and ends of lines, ramps of the scanner, direction, phase, any pitch.
 * Units: SI, see the types. Range: up to 16 million cells and 4 million events; in ramps a beam that is on along the
 * line counts its dose, not its longer passing. Errors: InvalidInput for sizes, gains and tilts that cannot be.
 * Source: own derivation.
 */
export function patchMap(draw: Draw, plan: PatchPlan, options: PatchMapOptions): PatchMap {
  const { setting, setup } = plan;
  const physics = mapPhysics(draw, plan, options.fluenceScale ?? 1);
  const { radius } = physics;
  const layout: ScanLayout = {
    width: requirePositive("width", options.width, "m"),
    height: requirePositive("height", options.height, "m"),
    speed: setting.speed,
    acceleration: setup.acceleration,
    lineSpacing: setting.lineSpacing,
    frequency: plan.events === "train" ? setting.frequency : null,
    serpentine: options.serpentine ?? true,
    turns: options.turns ?? "outside, beam off",
    phase: options.phase ?? "golden",
    firstPulses: options.firstPulses ?? [],
    multiplicity: plan.cell.multiplicity,
  };
  for (const gain of layout.firstPulses) requireInRange("energy of a first pulse", gain, "", 0, 100);
  const stretch = Math.cos(requireInRange("tilt", options.tilt ?? 0, "rad", 0, 1.4));
  const grid = requireGrid(options.grid ?? cornerGrid(layout, radius));
  const cells = grid.columns * grid.rows;
  const laws = startLaws(draw, plan, physics, layout, options.startTemperature ?? "bound");
  const pitted = draw.strip.off.find((l) => l.pitAreaShare > 0);
  const histories = (law: LawTable) => {
    const point = physics.point(law, draw.strip.thickness);
    const spec = { ...point, fluence: point.fluence * stretch };
    const pit = pitted && { ...spec, thickness: spec.thickness * (1 + pitted.pitDepthRatio) };
    return { flat: new PointHistory(spec), pits: pit ? new PointHistory(pit) : null };
  };
  const made = new Map<number, { history: ReturnType<typeof histories>; heat: CellHeat }>();
  const at = (step: number) => {
    let one = made.get(step);
    if (!one) {
      const law = laws.law(step);
      one = { history: histories(law), heat: cellHeat(draw, plan, physics, law, laws.start(step)) };
      made.set(step, one);
    }
    return one;
  };
  const map = () => new Float32Array(cells);
  const out = {
    left: map(),
    covered: map(),
    freed: map(),
    char: map(),
    bareFluence: map(),
    peak: map(),
    meltDepth: map(),
    melted: map(),
    oxide: map(),
    startTemperature: map(),
  };
  const { residueThickness } = draw.strip;
  const held = (p: PointHistory) => (p.left + p.char > residueThickness && !p.letGo ? 1 - normalCdf(p.freed) : 0);
  visitCells(plan, layout, grid, radius, stretch, options.places, (cell, x, y, shapes, starts) => {
    const step = laws.step(x, y);
    const { history, heat } = at(step);
    const { flat, pits } = history;
    flat.run(shapes, starts, 1);
    let covered = held(flat);
    if (pits && pitted) {
      pits.run(shapes, starts, 1);
      covered += pitted.pitAreaShare * (held(pits) - covered);
    }
    out.left[cell] = flat.left + flat.char;
    out.covered[cell] = covered;
    out.freed[cell] = Math.max(-9, flat.freed);
    out.char[cell] = flat.char;
    out.startTemperature[cell] = laws.start(step);
    heat(flat, cell, out);
  });
  const figures = mapFigures(out, grid, layout, radius, draw.sample.metal.meltingTemperature);
  return { grid, ...out, thickness: draw.strip.thickness, residueThickness, figures };
}

/** The corner where the scan begins. */
function cornerGrid(layout: ScanLayout, radius: Metre): MapGrid {
  const step = radius / 5;
  const cells = (side: number) => Math.max(1, Math.round(Math.min(side, 20 * radius) / step));
  return { columns: cells(layout.width), rows: cells(layout.height), step, x0: step / 2, y0: step / 2 };
}

/** Laws at some temperatures before the event, and which of them holds at a place. */
function startLaws(draw: Draw, plan: PatchPlan, physics: MapPhysics, layout: ScanLayout, kind: "bound" | "raster") {
  if (kind === "bound") {
    const start = physics.bound;
    return { step: () => 0, start: (): Kelvin => start, law: () => physics.law(start) };
  }
  const map = startMap(draw, plan, physics, layout);
  const low = map.before.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  const high = map.before.reduce((a, b) => Math.max(a, b), 0);
  const span = Math.max(high - low, 1e-9);
  const start = (step: number): Kelvin => low + (span * (step + 0.5)) / LAWS;
  return {
    step: (x: number, y: number) => Math.min(LAWS - 1, Math.floor((LAWS * (startAt(map, layout, x, y) - low)) / span)),
    start,
    law: (step: number) => physics.law(start(step)),
  };
}

type Visit = (cell: number, x: Metre, y: Metre, shapes: Float64Array, starts: Uint8Array) => void;

/** Hands each cell its events of one pass in time order, as `shapeOf` values. */
function visitCells(
  plan: PatchPlan,
  layout: ScanLayout,
  grid: MapGrid,
  radius: Metre,
  stretch: number,
  places: Float64Array | undefined,
  visit: Visit,
): void {
  if (plan.events === "line") {
    if (places) invalid("places", places.length / 2, "events", "need separate pulses, not a beam that is on all along");
    visitLineCells(plan, layout, grid, radius, visit);
    return;
  }
  const { profile } = plan.setup;
  const events = places ? eventsAt(places) : pulsedEvents(layout);
  if (events.x.length > 4_000_000) invalid("events", events.x.length, "", "at most 4 million");
  const reach = CUTOFF * radius;
  const { side, across, first, list } = eventTiles(grid, events, reach / stretch);
  const far = CUTOFF * CUTOFF;
  const inverse = 1 / (radius * radius);
  let longest = 0;
  for (let t = 1; t < first.length; t++) longest = Math.max(longest, first[t]! - first[t - 1]!);
  const shapes = new Float64Array(longest);
  const starts = new Uint8Array(longest);
  for (let j = 0; j < grid.rows; j++) {
    const y = grid.y0 + j * grid.step;
    for (let i = 0; i < grid.columns; i++) {
      const x = grid.x0 + i * grid.step;
      const tile = Math.floor(j / side) * across + Math.floor(i / side);
      let n = 0;
      let line = -1;
      for (let e = first[tile]!; e < first[tile + 1]!; e++) {
        const event = list[e]!;
        const dx = (events.x[event]! - x) * stretch;
        const dy = events.y[event]! - y;
        const r2 = (dx * dx + dy * dy) * inverse;
        if (r2 > far) continue;
        shapes[n] = shapeOf(r2, events.gain[event]!, profile, false);
        starts[n++] = events.line[event] === line ? 0 : 1;
        line = events.line[event]!;
      }
      visit(j * grid.columns + i, x, y, shapes.subarray(0, n), starts.subarray(0, n));
    }
  }
}

function eventsAt(places: Float64Array): ScanEvents {
  const count = places.length / 2;
  return {
    x: Float64Array.from({ length: count }, (_, n) => places[2 * n]!),
    y: Float64Array.from({ length: count }, (_, n) => places[2 * n + 1]!),
    gain: new Float64Array(count).fill(1),
    line: new Int32Array(count),
  };
}

/** One event a line for a beam that is on all along, its dose by the place along the line. */
function visitLineCells(plan: PatchPlan, layout: ScanLayout, grid: MapGrid, radius: Metre, visit: Visit): void {
  const { profile } = plan.setup;
  const reach = CUTOFF * radius;
  const lines = lineCount(layout);
  const forth = Float64Array.from({ length: grid.columns }, (_, i) =>
    lineDose(layout, radius, profile, grid.x0 + i * grid.step),
  );
  const back = Float64Array.from({ length: grid.columns }, (_, i) =>
    lineDose(layout, radius, profile, layout.width - grid.x0 - i * grid.step),
  );
  const shapes = new Float64Array(Math.ceil((2 * reach) / layout.lineSpacing) + 2);
  const starts = new Uint8Array(shapes.length).fill(1);
  for (let j = 0; j < grid.rows; j++) {
    const y = grid.y0 + j * grid.step;
    const from = Math.max(0, Math.ceil((y - reach - lineY(layout, 0)) / layout.lineSpacing));
    const to = Math.min(lines - 1, Math.floor((y + reach - lineY(layout, 0)) / layout.lineSpacing));
    for (let i = 0; i < grid.columns; i++) {
      let n = 0;
      for (let l = from; l <= to; l++) {
        const dose = layout.serpentine && l % 2 === 1 ? back[i]! : forth[i]!;
        const dy = (lineY(layout, l) - y) / radius;
        if (dose > 1e-3) shapes[n++] = shapeOf(dy * dy, dose, profile, true);
      }
      const x = grid.x0 + i * grid.step;
      visit(j * grid.columns + i, x, y, shapes.subarray(0, n), starts.subarray(0, n));
    }
  }
}
