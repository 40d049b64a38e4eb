import type { LoopMemory } from "./instance.ts";

/** A map of cells to be stamped, and how craters fall off. Lengths in cells, cell centres at whole numbers. */
export interface StampMap {
  readonly columns: number;
  readonly rows: number;
  /** x and y of each event in turn, cells */
  readonly places: Float64Array;
  /** edge (cells²) and slope (depth per cell²) of each hinge in turn: depth = Σ slope·max(0, edge − r²) */
  readonly hinges: Float64Array;
  /** depth to start from; what is left of it, not below 0, is the result */
  readonly thickness: number;
}

/** Largest distance at which an event still takes something off, cells. */
function reachOf(hinges: Float64Array): number {
  let edge = 0;
  for (let h = 0; h < hinges.length; h += 2) edge = Math.max(edge, hinges[h]!);
  return Math.sqrt(edge);
}

/**
 * What is left of a layer after events that each take off a depth falling piecewise linearly in r²: the plain twin.
 *
 * Equation: left = max(0, thickness − Σ_events Σ_k slope_k·max(0, edge_k − r²)); in doubles, kept as single floats.
 * Units: as in `StampMap`; result in the unit of the thickness, row by row. Range: whole columns and rows. Errors: none.
 * Source: own (additive crater depths).
 */
export function plainStamp(spec: StampMap, into: Float32Array): void {
  const { columns, rows, places, hinges, thickness } = spec;
  const reach = reachOf(hinges);
  const gone = new Float64Array(columns * rows);
  for (let n = 0; n < places.length; n += 2) {
    const x = places[n]!;
    const y = places[n + 1]!;
    const bottom = Math.min(rows - 1, Math.floor(y + reach));
    for (let j = Math.max(0, Math.ceil(y - reach)); j <= bottom; j++) {
      const dy2 = (j - y) * (j - y);
      const chord = Math.sqrt(Math.max(0, reach * reach - dy2));
      const last = Math.min(columns - 1, Math.floor(x + chord));
      for (let i = Math.max(0, Math.ceil(x - chord)); i <= last; i++) {
        const r2 = (i - x) * (i - x) + dy2;
        let depth = 0;
        for (let h = 0; h < hinges.length; h += 2) if (hinges[h]! > r2) depth += hinges[h + 1]! * (hinges[h]! - r2);
        gone[j * columns + i] += depth;
      }
    }
  }
  for (let i = 0; i < gone.length; i++) into[i] = Math.max(0, thickness - gone[i]!);
}

/**
 * The same by SIMD in single floats. Differs from the plain twin by at most 1e-6 of Σ |slope_k|·edge_k for each event
 * that reaches a cell (for hinges of one sign that is a millionth of the crater's middle).
 */
export function wasmStamp(memory: LoopMemory, spec: StampMap, into: Float32Array): void {
  const { columns, rows, places, hinges } = spec;
  // A row ends with at least three spare cells, so that the last four of a row never reach into the next.
  const stride = (columns + 6) & ~3;
  const cells = stride * rows;
  memory.reset();
  const map = memory.place(4 * cells);
  const placesAt = memory.place(8 * places.length);
  const hingesAt = memory.place(8 * hinges.length);
  const reach = reachOf(hinges);
  const scratch = memory.place(4 * (reach + 4) + 8 * hinges.length + 16 * (reach / 2 + 3));
  memory.f64(placesAt, places.length).set(places);
  memory.f64(hingesAt, hinges.length).set(hinges);
  memory.call.clear(map, 4 * cells);
  memory.call.stampHinges(
    map,
    stride,
    columns,
    rows,
    placesAt,
    places.length / 2,
    hingesAt,
    hinges.length / 2,
    reach,
    scratch,
  );
  memory.call.leaveOver(map, cells, spec.thickness);
  const view = memory.f32(map, cells);
  for (let j = 0; j < rows; j++) into.set(view.subarray(j * stride, j * stride + columns), j * columns);
}
