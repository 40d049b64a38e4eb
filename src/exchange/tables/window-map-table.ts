import type { WindowWire } from "#contract";
import { type Column, numbers, type Table, texts } from "./table.ts";

const yesNo = (list: readonly boolean[] | null | undefined, i: number): string | null =>
  list === null || list === undefined ? null : list[i] ? "yes" : "no";

/**
 * The process window as a list of grid points, y outer. The names of the first two columns are those of the axes, with
 * their units in brackets; chances are shares of 1. `null` where the window has no map.
 */
export function windowMapTable(window: WindowWire): Table | null {
  const { map } = window;
  if (map === null) return null;
  const columns: readonly Column[] = [
    ...numbers(map.xName, map.yName, "probabilityClean", "probabilityUndamaged"),
    ...texts("keptUnderDrift", "outOfReach"),
  ];
  const rows = map.y.flatMap((y, row) =>
    map.x.map((x, column) => {
      const i = row * map.x.length + column;
      return [
        x,
        y,
        map.probabilityClean[i] ?? null,
        map.probabilityUndamaged[i] ?? null,
        yesNo(map.conservative, i),
        // Left out of the map where the machine can be set everywhere on it.
        map.beyond === undefined ? "no" : yesNo(map.beyond, i),
      ];
    }),
  );
  return { name: "window-map", title: "Window map", columns, rows };
}
