import { mapColour } from "./colour-map.ts";
import { element } from "./xml.ts";

export interface FieldPlace {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

const levels = 20;

/**
 * A grid of shares as a coloured field; row 0 stands at the bottom. Node values sit on the corners of the frame, so the
 * cells of the first and last nodes are half as wide. Equal neighbours in a row are drawn as one rectangle.
 */
export function fieldSvg(values: readonly number[], columns: number, place: FieldPlace, colour = mapColour): string {
  const rows = values.length / columns;
  const edge = (k: number, count: number): number => Math.min(1, Math.max(0, (k - 0.5) / (count - 1)));
  const bin = (value: number): number => Math.min(levels - 1, Math.floor(value * levels));
  const cells: string[] = [];
  for (let j = 0; j < rows; j++) {
    const yTop = place.top + place.height * (1 - edge(j + 1, rows));
    const height = place.height * (edge(j + 1, rows) - edge(j, rows));
    let start = 0;
    for (let i = 1; i <= columns; i++) {
      const same = i < columns && bin(values[j * columns + i]!) === bin(values[j * columns + start]!);
      if (same) continue;
      const x = place.left + place.width * edge(start, columns);
      const right = place.left + place.width * edge(i, columns);
      const fill = colour((bin(values[j * columns + start]!) + 0.5) / levels);
      // a hair of overlap hides the seams that viewers draw between touching rectangles
      cells.push(element("rect", { x, y: yTop - 0.3, width: right - x + 0.3, height: height + 0.3, fill }));
      start = i;
    }
  }
  return element("g", {}, ...cells);
}

/** A coarse grid with a node put between each two, by straight interpolation, so that the field looks less blocky. */
export function refined(values: readonly number[], columns: number): [number[], number] {
  const rows = values.length / columns;
  if (columns > 60 || rows < 2) return [[...values], columns];
  const wide = columns * 2 - 1;
  const fine: number[] = [];
  for (let j = 0; j < rows * 2 - 1; j++)
    for (let i = 0; i < wide; i++) {
      const pick = (di: number, dj: number): number =>
        values[Math.floor((j + dj) / 2) * columns + Math.floor((i + di) / 2)]!;
      fine.push((pick(0, 0) + pick(1, 0) + pick(0, 1) + pick(1, 1)) / 4);
    }
  return [fine, wide];
}

/** Key of a field: a bar of the colours with words at its ends. */
export function fieldKey(x: number, y: number, width: number, height: number, colour = mapColour): string {
  const cells = Array.from({ length: levels }, (_, k) =>
    element("rect", {
      x: x + (width * k) / levels,
      y,
      width: width / levels + 0.3,
      height,
      fill: colour((k + 0.5) / levels),
    }),
  );
  return element("g", {}, ...cells);
}
