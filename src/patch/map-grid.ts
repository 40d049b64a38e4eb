import type { Metre } from "#terms";
import { requireFinite, requireInteger, requirePositive } from "#units";

/** Square cells of a map, row by row; x runs along the lines, y across them. */
export interface MapGrid {
  readonly columns: number;
  readonly rows: number;
  /** m, side of a cell */
  readonly step: Metre;
  /** m, centre of the first cell of the first row */
  readonly x0: Metre;
  readonly y0: Metre;
}

/** Hands back a grid whose numbers can be used; throws InvalidInput otherwise (at most 16 million cells). */
export function requireGrid(grid: MapGrid): MapGrid {
  requireInteger("columns", grid.columns, 1, 65536);
  requireInteger("rows", grid.rows, 1, 65536);
  requireInteger("cells", grid.columns * grid.rows, 1, 16_777_216);
  requirePositive("cell side", grid.step, "m");
  requireFinite("x of the first cell", grid.x0, "m");
  requireFinite("y of the first cell", grid.y0, "m");
  return grid;
}
