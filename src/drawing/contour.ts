import { invalid } from "#units";

/** A polyline in grid units: x from 0 to columns − 1, y from 0 to rows − 1. */
export type ContourLine = readonly (readonly [number, number])[];

/**
 * Lines of equal value on a grid (row major, y outer) by marching squares with straight interpolation along the cell
 * edges; saddles are settled by the mean of the four corners. Source: own derivation of a textbook method.
 */
export function contourLines(values: readonly number[], columns: number, level: number): ContourLine[] {
  if (!Number.isInteger(columns) || columns < 2 || values.length % columns !== 0)
    return invalid("columns", columns, "", "must divide the number of values and be at least 2");
  const rows = values.length / columns;
  const ends = new Map<string, string[]>();
  const points = new Map<string, readonly [number, number]>();
  const join = (a: string, b: string): void => {
    (ends.get(a) ?? ends.set(a, []).get(a)!).push(b);
    (ends.get(b) ?? ends.set(b, []).get(b)!).push(a);
  };
  const value = (i: number, j: number): number => values[j * columns + i]!;
  const cross = (i0: number, j0: number, i1: number, j1: number): string => {
    const key = `${i0},${j0},${i1},${j1}`;
    if (!points.has(key)) {
      const t = (level - value(i0, j0)) / (value(i1, j1) - value(i0, j0));
      points.set(key, [i0 + t * (i1 - i0), j0 + t * (j1 - j0)]);
    }
    return key;
  };
  for (let j = 0; j + 1 < rows; j++)
    for (let i = 0; i + 1 < columns; i++) {
      const corners = [value(i, j), value(i + 1, j), value(i + 1, j + 1), value(i, j + 1)] as const;
      const code = corners.reduce((sum, v, k) => sum + (v >= level ? 1 << k : 0), 0);
      if (code === 0 || code === 15) continue;
      const side = {
        top: () => cross(i, j, i + 1, j),
        right: () => cross(i + 1, j, i + 1, j + 1),
        bottom: () => cross(i, j + 1, i + 1, j + 1),
        left: () => cross(i, j, i, j + 1),
      };
      const centreHigh = (corners[0] + corners[1] + corners[2] + corners[3]) / 4 >= level;
      for (const [a, b] of segments(code, centreHigh)) join(side[a](), side[b]());
    }
  return chains(ends, points);
}

type Side = "top" | "right" | "bottom" | "left";

function segments(code: number, centreHigh: boolean): readonly (readonly [Side, Side])[] {
  const low = Math.min(code, 15 - code);
  if (low === 1) return [["left", "top"]];
  if (low === 2) return [["top", "right"]];
  if (low === 4) return [["right", "bottom"]];
  if (low === 7) return [["left", "bottom"]];
  if (low === 3) return [["left", "right"]];
  if (low === 6) return [["top", "bottom"]];
  // code 5: corners 0 and 2 high; code 10: corners 1 and 3 high
  const cutOffOnes = (code === 5) === centreHigh;
  return cutOffOnes
    ? [
        ["top", "right"],
        ["left", "bottom"],
      ]
    : [
        ["left", "top"],
        ["right", "bottom"],
      ];
}

function chains(ends: Map<string, string[]>, points: ReadonlyMap<string, readonly [number, number]>): ContourLine[] {
  const lines: ContourLine[] = [];
  const walk = (start: string): void => {
    const line = [points.get(start)!];
    let here = start;
    for (;;) {
      const next = ends.get(here)?.pop();
      if (next === undefined) break;
      const back = ends.get(next)!;
      back.splice(back.indexOf(here), 1);
      line.push(points.get(next)!);
      here = next;
    }
    if (line.length > 1) lines.push(line);
  };
  for (const [key, neighbours] of ends) if (neighbours.length === 1) walk(key);
  for (const [key, neighbours] of ends) if (neighbours.length > 0) walk(key);
  return lines;
}
