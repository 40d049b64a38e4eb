import type { MapGrid } from "./map-grid.ts";
import type { ScanEvents } from "./map-events.ts";

/** For each tile of cells the events that may reach one of its cells, in time order. */
export interface EventTiles {
  /** cells along a side of a tile */
  readonly side: number;
  readonly across: number;
  /** tile t holds list[first[t]] to list[first[t + 1]] */
  readonly first: Int32Array;
  readonly list: Int32Array;
}

/** Sorts events into tiles about as wide as their reach (m); counted first, then filled, so that time order is kept. */
export function eventTiles(grid: MapGrid, events: ScanEvents, reach: number): EventTiles {
  const side = Math.max(1, Math.round((0.7 * reach) / grid.step));
  const across = Math.ceil(grid.columns / side);
  const down = Math.ceil(grid.rows / side);
  const first = new Int32Array(across * down + 1);
  const visit = (touch: (tile: number, event: number) => void) => {
    for (let n = 0; n < events.x.length; n++) {
      const x = (events.x[n]! - grid.x0) / grid.step;
      const y = (events.y[n]! - grid.y0) / grid.step;
      const far = reach / grid.step;
      const left = Math.max(0, Math.floor((x - far) / side));
      const right = Math.min(across - 1, Math.floor((x + far) / side));
      const top = Math.max(0, Math.floor((y - far) / side));
      const bottom = Math.min(down - 1, Math.floor((y + far) / side));
      for (let j = top; j <= bottom; j++) for (let i = left; i <= right; i++) touch(j * across + i, n);
    }
  };
  visit((tile) => {
    first[tile + 1]!++;
  });
  for (let t = 0; t < across * down; t++) first[t + 1]! += first[t]!;
  const list = new Int32Array(first[across * down]!);
  const next = first.slice();
  visit((tile, event) => {
    list[next[tile]!++] = event;
  });
  return { side, across, first, list };
}
