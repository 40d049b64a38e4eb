import { normalCdf } from "#numerics";
import type { LawTable } from "#removal";
import type { Kelvin, Metre, Radian, Second } from "#terms";
import { requireInRange, requirePositive } from "#units";
import type { Draw } from "./draw.ts";
import type { Phase, ScanLayout, Turns } from "./map-events.ts";
import { type MapFigures, mapFigures } from "./map-figures.ts";
import { type MapGrid, requireGrid } from "./map-grid.ts";
import { type CellHeat, cellHeat } from "./map-heat.ts";
import { type EventPhysics, eventPhysics } from "./event-physics.ts";
import { startAt, startMap } from "./map-start.ts";
import { visitCells } from "./map-visit.ts";
import { PointHistory } from "./point.ts";
import type { PatchPlan } from "./patch-plan.ts";

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
  /** m, x and y in turn: events of one pass in time order instead of the raster's (a swinging spot, free paths) */
  readonly places?: Float64Array;
  /** s between those places, an eighth of a spot apart or less, for a beam that is on along the line */
  readonly every?: Second;
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
  const physics = eventPhysics(draw, plan, options.fluenceScale ?? 1);
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
    // Places and gains are handed over as the r² of these two forms, see `shapeOf`.
    const point = { ...physics.point(law, draw.strip.thickness), lineEvents: true };
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
  const path = options.places ? { places: options.places, every: options.every ?? null } : null;
  visitCells(plan, layout, grid, radius, stretch, path, (cell, x, y, shapes, starts) => {
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
function startLaws(draw: Draw, plan: PatchPlan, physics: EventPhysics, layout: ScanLayout, kind: "bound" | "raster") {
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
