import type { Metre, Second } from "#terms";
import { invalid, requirePositive } from "#units";
import { lineCount, lineDose, lineY, pulsedEvents, type ScanEvents, type ScanLayout } from "./map-events.ts";
import type { MapGrid } from "./map-grid.ts";
import { shapeOf } from "./map-physics.ts";
import { eventTiles } from "./map-tiles.ts";
import type { PatchPlan } from "./patch-plan.ts";

/** Events of one pass that follow no raster: a swinging spot, a free path. */
export interface FreePath {
  /** m, x and y in turn, in time order */
  readonly places: Float64Array;
  /** s between places, for a beam that is on all along; null for pulses */
  readonly every: Second | null;
}

/** Events farther than this many radii away deposit less than 1.2 % of the peak, as in the repeating cell. */
const CUTOFF = 1.5;

type Visit = (cell: number, x: Metre, y: Metre, shapes: Float64Array, starts: Uint8Array) => void;

/** Hands each cell its events of one pass in time order, as `shapeOf` values. */
export function visitCells(
  plan: PatchPlan,
  layout: ScanLayout,
  grid: MapGrid,
  radius: Metre,
  stretch: number,
  path: FreePath | null,
  visit: Visit,
): void {
  if (plan.events === "line") {
    if (path) visitPathCells(plan, grid, radius, stretch, path, visit);
    else visitLineCells(plan, layout, grid, radius, visit);
    return;
  }
  const { profile } = plan.setup;
  const events = path ? eventsAt(path.places) : pulsedEvents(layout);
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

/**
 * A beam that is on all along a free path: each passing of a cell is one event with the dose that it gives there over
 * that of the plan's straight line. A passing ends when the spot has left, or comes back after it had fallen below half.
 */
function visitPathCells(
  plan: PatchPlan,
  grid: MapGrid,
  radius: Metre,
  stretch: number,
  path: FreePath,
  visit: Visit,
): void {
  const { profile } = plan.setup;
  const every = requirePositive("time between places of a path", path.every, "s");
  const events = eventsAt(path.places);
  const { side, across, first, list } = eventTiles(grid, events, (CUTOFF * radius) / stretch);
  const norm = (every * plan.setting.speed) / (radius * (profile === "gaussian" ? Math.sqrt(Math.PI / 2) : 2));
  const far = CUTOFF * CUTOFF;
  const inverse = 1 / (radius * radius);
  let shapes = new Float64Array(64);
  for (let j = 0; j < grid.rows; j++) {
    const y = grid.y0 + j * grid.step;
    for (let i = 0; i < grid.columns; i++) {
      const x = grid.x0 + i * grid.step;
      const tile = Math.floor(j / side) * across + Math.floor(i / side);
      let n = 0;
      let dose = 0;
      let highest = 0;
      let lowest = 1;
      let before = -2;
      const end = () => {
        if (dose * norm > 2e-3) {
          if (n === shapes.length) {
            const longer = new Float64Array(2 * n);
            longer.set(shapes);
            shapes = longer;
          }
          shapes[n++] = shapeOf(0, dose * norm, profile, true);
        }
        dose = 0;
        highest = 0;
        lowest = 1;
      };
      for (let e = first[tile]!; e < first[tile + 1]!; e++) {
        const event = list[e]!;
        const dx = (events.x[event]! - x) * stretch;
        const dy = events.y[event]! - y;
        const r2 = (dx * dx + dy * dy) * inverse;
        if (r2 > far) continue;
        const share = profile === "gaussian" ? Math.exp(-2 * r2) : r2 < 1 ? 1 : 0;
        if (event !== before + 1 || (lowest < 0.5 * highest && share > 2 * lowest)) end();
        before = event;
        dose += share;
        if (share > highest) [highest, lowest] = [share, share];
        lowest = Math.min(lowest, share);
      }
      end();
      visit(j * grid.columns + i, x, y, shapes.subarray(0, n), new Uint8Array(n).fill(1));
    }
  }
}
