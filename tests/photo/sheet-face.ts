import { frameExtent, markerCells } from "#grading";
import type { Plate } from "./plate.ts";

/** What lies at a place; from `coat` on, the coupon: coat between patches, then patch 0, 1, ... */
export const surface = { table: 0, paper: 1, ink: 2, finger: 3, firstGrey: 4, coat: 30 } as const;

/** m of white beyond the frame: left and right, above, below (ruler and a few lines of text) */
const rim = { side: 5e-3, above: 8e-3, below: 14e-3 };

/** Label of a place in m from the coupon's lower left corner, for the sheet and what lies beside it. */
export function sheetLabels(plate: Plate, covered: number | null): (x: number, y: number) => number {
  const { frame } = plate;
  const extent = frameExtent(frame);
  const left = extent.left - rim.side;
  const right = extent.left + extent.width + rim.side;
  const bottom = extent.bottom - rim.below;
  const top = extent.bottom + extent.height + rim.above;
  const markers = frame.markers.map((m) => ({ ...m, cells: markerCells(m.id) }));
  const finger = covered === null ? null : fingerOver(plate, covered);
  const inX = [extent.left + 2e-3, extent.left + 2e-3 + 1e-2 * Math.floor((extent.width - 4e-3) * 100)] as const;

  return (x, y) => {
    if (finger?.(x, y)) return surface.finger;
    if (x < left || x > right || y < bottom || y > top) return surface.table;
    for (const m of markers) {
      if (x < m.x || y < m.y || x >= m.x + m.size || y >= m.y + m.size) continue;
      const column = Math.min(5, Math.floor(((x - m.x) / m.size) * 6));
      const row = Math.min(5, Math.floor(((m.y + m.size - y) / m.size) * 6));
      return m.cells[row]![column] ? surface.ink : surface.paper;
    }
    for (let k = 0; k < frame.greys.length; k++) {
      const g = frame.greys[k]!;
      if (x >= g.x && y >= g.y && x < g.x + g.width && y < g.y + g.height) return surface.firstGrey + k;
    }
    return y < extent.bottom && x > inX[0] && x < inX[1] ? printed(x - inX[0], extent.bottom - y) : surface.paper;
  };
}

/** Ruler with a mark every 5 mm, and below it three lines of something like words. */
function printed(x: number, down: number): number {
  if (down >= 1e-3 && down < 1.25e-3) return surface.ink;
  const mark = x % 5e-3;
  if (down >= 1e-3 && down < (x % 1e-2 < 5e-3 ? 3.2e-3 : 2.2e-3) && mark < 0.25e-3) return surface.ink;
  const line = Math.floor((down - 4.5e-3) / 3.4e-3);
  const within = down - 4.5e-3 - line * 3.4e-3;
  if (line < 0 || line > 2 || within > 1.9e-3) return surface.paper;
  const stroke = Math.floor(x / 0.45e-3);
  const word = Math.sin(stroke * 12.9898 + line * 78.233) * 43758.5453;
  return stroke % 2 === 0 && word - Math.floor(word) < 0.62 ? surface.ink : surface.paper;
}

/** A finger that comes in from outside of the sheet and ends on a marker. */
function fingerOver(plate: Plate, marker: number): (x: number, y: number) => boolean {
  const { frame } = plate;
  const m = frame.markers[marker]!;
  const [x0, y0] = [m.x + m.size / 2, m.y + m.size / 2];
  const [dx, dy] = [x0 - frame.couponWidth / 2, y0 - frame.couponHeight / 2];
  const length = Math.hypot(dx, dy);
  const [ux, uy] = [dx / length, dy / length];
  const radius = 0.72 * m.size;
  return (x, y) => {
    const along = (x - x0) * ux + (y - y0) * uy;
    const across = (y - y0) * ux - (x - x0) * uy;
    const beyond = along < 0 ? along : 0;
    return beyond * beyond + across * across < radius * radius;
  };
}
