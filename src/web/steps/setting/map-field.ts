import { contourLines, mapColour } from "#drawing";
import type { LiveMap } from "./use-map.ts";

const colours = Array.from({ length: 101 }, (_, i) => {
  const hex = mapColour(i / 100, "cividis");
  return [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16)) as [number, number, number];
});

/** Chance of clean and undamaged at every place, 0 to 1; the two edges taken as independent, as the printed map does. */
export const bothOf = ({ clean, undamaged }: LiveMap): number[] => Array.from(clean, (c, i) => c * (undamaged[i] ?? 0));

/** Paints the field, one pixel a place, the first row at the bottom; rows that are not known stay clear. */
export function paintField(context: CanvasRenderingContext2D, map: LiveMap): void {
  const columns = map.x.values.length;
  const rows = map.y.values.length;
  const image = context.createImageData(columns, rows);
  const both = bothOf(map);
  for (let row = 0; row < map.rows; row++)
    for (let column = 0; column < columns; column++) {
      const at = row * columns + column;
      const to = 4 * ((rows - 1 - row) * columns + column);
      const [r, g, b] = colours[Math.round(100 * (both[at] ?? 0))] ?? [0, 0, 0];
      image.data.set([r, g, b, 255], to);
    }
  context.canvas.width = columns;
  context.canvas.height = rows;
  context.putImageData(image, 0, 0);
}

/** A contour over the map as an SVG path in a square of side 1, x to the right, y upwards. */
export function contourPath(map: LiveMap, values: ArrayLike<number>, level: number): string {
  const columns = map.x.values.length;
  const rows = map.y.values.length;
  if (map.rows < rows) return "";
  const place = ([i, j]: readonly [number, number]) =>
    `${(i / (columns - 1)).toFixed(4)} ${(1 - j / (rows - 1)).toFixed(4)}`;
  return contourLines(Array.from(values), columns, level)
    .map((line) => `M${line.map(place).join("L")}`)
    .join("");
}
