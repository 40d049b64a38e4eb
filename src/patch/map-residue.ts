import { loops } from "#loops";
import type { Metre } from "#terms";
import { invalid, requireFinite, requireNonNegative } from "#units";
import { type MapGrid, requireGrid } from "./map-grid.ts";
import { type DepthProfile, hingesOf } from "./map-profile.ts";
import { fillRegular, lineStart, planRegular, type RegularRaster, requireRaster } from "./map-regular.ts";

/** Places of events, x and y in turn, m. */
export interface EventPlaces {
  readonly places: Float64Array;
}

export interface ResidueMap {
  /** m left, row by row */
  readonly left: Float32Array;
  readonly how: "rows that repeat" | "stamped one by one";
  /** m, by how much the depth of each event may differ from its profile (thinning of the table) */
  readonly errorPerEvent: Metre;
}

/** ns, measured: one hinge read in a row, one hinge on one cell by SIMD, handling one cell of a stamped map. */
const READ_COST = 3;
const STAMP_COST = 0.4;
const CELL_COST = 5;

/**
 * What is left of a layer after events that each take off the same radial profile, layer depths adding.
 *
 * Equation: left = max(0, thickness − Σ z(r²)). A raster at one pitch is put together from rows that repeat (copied) and,
 * where the pitch fits the cells, from profiles that repeat along the row; anything else is stamped event by event.
 * Units: thickness m, profile m over m², grid and places m; result as in `ResidueMap`.
 * Range: tolerance (m, default a thousandth of the crater's middle) bounds the thinning of a long table; the sums
 * themselves are good to 1e-6 of the crater's middle for each event that reaches a cell. `into` reuses memory.
 * Errors: InvalidInput for grids, rasters and profiles that cannot be. Source: own (additive crater depths).
 */
export function residueMap(
  grid: MapGrid,
  thickness: Metre,
  profile: DepthProfile,
  events: RegularRaster | EventPlaces,
  options: { readonly tolerance?: Metre; readonly into?: Float32Array } = {},
): ResidueMap {
  requireGrid(grid);
  requireNonNegative("thickness", thickness, "m");
  const cells = grid.columns * grid.rows;
  const left = options.into ?? new Float32Array(cells);
  if (left.length !== cells) invalid("map", left.length, "cells", "must be columns × rows long");
  const { pairs, reach, error } = hingesOf(profile, options.tolerance ?? 1e-3 * profile.depth[0]!);
  const inCells = pairs.slice();
  const square = grid.step * grid.step;
  for (let h = 0; h < inCells.length; h += 2) {
    inCells[h] = pairs[h]! / square;
    inCells[h + 1] = pairs[h + 1]! * square;
  }
  if ("places" in events) return stamped(events.places);
  requireRaster(events);
  const plan = planRegular(grid, events, reach);
  const far = reach / grid.step;
  const touched = Math.min(events.lines * events.pulsesPerLine, cells / (plan.pitch * (events.spacing / grid.step)));
  const stampWork = STAMP_COST * touched * Math.PI * far * far * (pairs.length / 2) + CELL_COST * cells;
  if (READ_COST * plan.work * (pairs.length / 2) > stampWork) return stamped(placesOf(events));
  fillRegular(plan, grid.columns, inCells, thickness, left);
  return { left, how: "rows that repeat", errorPerEvent: error };

  function stamped(places: Float64Array): ResidueMap {
    const scaled = new Float64Array(places.length);
    for (let n = 0; n < places.length; n += 2) {
      scaled[n] = (places[n]! - grid.x0) / grid.step;
      scaled[n + 1] = (places[n + 1]! - grid.y0) / grid.step;
    }
    const sum = scaled.reduce((a, b) => a + b, 0);
    requireFinite("place of an event", sum, "m");
    loops().stamp({ columns: grid.columns, rows: grid.rows, places: scaled, hinges: inCells, thickness }, left);
    return { left, how: "stamped one by one", errorPerEvent: error };
  }
}

/** Every pulse of a regular raster, line by line, x and y in turn, m. */
export function placesOf(raster: RegularRaster): Float64Array {
  const places = new Float64Array(2 * raster.lines * raster.pulsesPerLine);
  let at = 0;
  for (let l = 0; l < raster.lines; l++) {
    const start = lineStart(raster, l);
    for (let k = 0; k < raster.pulsesPerLine; k++) {
      places[at++] = start + k * raster.pitch;
      places[at++] = raster.y0 + l * raster.spacing;
    }
  }
  return places;
}
