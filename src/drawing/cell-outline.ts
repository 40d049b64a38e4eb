import { coordinate } from "./xml.ts";

/**
 * Outline of all cells that are set, as the path of an SVG: one closed line around each group, not one around each cell, so
 * that no seam shows between neighbours. `cells` by rows from the top; `side` of one cell in picture units.
 */
export function cellOutline(cells: readonly (readonly boolean[])[], side: number): string {
  const set = (row: number, column: number): boolean => cells[row]?.[column] === true;
  // Every edge between a cell that is set and one that is not, with the set one to its right, from point to point.
  const from = new Map<string, [number, number][]>();
  const edge = (x: number, y: number, toX: number, toY: number): void => {
    const key = `${x} ${y}`;
    from.set(key, [...(from.get(key) ?? []), [toX, toY]]);
  };
  for (const [y, line] of cells.entries())
    for (const x of line.keys()) {
      if (!set(y, x)) continue;
      if (!set(y - 1, x)) edge(x, y, x + 1, y);
      if (!set(y, x + 1)) edge(x + 1, y, x + 1, y + 1);
      if (!set(y + 1, x)) edge(x + 1, y + 1, x, y + 1);
      if (!set(y, x - 1)) edge(x, y + 1, x, y);
    }
  const take = (x: number, y: number): [number, number] | undefined => from.get(`${x} ${y}`)?.pop();
  let path = "";
  for (const key of from.keys()) {
    const [startX, startY] = key.split(" ").map(Number) as [number, number];
    for (let to = take(startX, startY); to !== undefined; to = take(...to)) {
      path += `${path === "" || path.endsWith("Z") ? `M${coordinate(startX * side)} ${coordinate(startY * side)}` : ""}L${coordinate(to[0] * side)} ${coordinate(to[1] * side)}`;
      if (to[0] === startX && to[1] === startY) path += "Z";
    }
  }
  return path;
}
