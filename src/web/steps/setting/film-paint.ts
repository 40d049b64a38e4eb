import { mapColour } from "#drawing";
import type { PulseFilm } from "#workflows";

/** Colours of the film over its temperatures: 256 of the map, dark cold, light hot. */
const colours = Array.from({ length: 256 }, (_, i) => {
  const hex = mapColour(i / 255, "viridis");
  return [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16)) as [number, number, number];
});

/** K at both ends of the scale: from the start to the hottest frame, at most to what the metal boils at. */
export function filmScale(film: PulseFilm): { readonly low: number; readonly high: number } {
  const boils = film.marks.at(-1)?.temperature ?? Number.POSITIVE_INFINITY;
  const hottest = film.frames.reduce((most, frame, i) => {
    let peak = most;
    for (let cell = film.gone[i] ?? 0; cell < frame.length; cell++) peak = Math.max(peak, frame[cell] ?? 0);
    return peak;
  }, film.start);
  return { low: film.start, high: Math.max(Math.min(hottest, boils), film.start + 20) };
}

/** Cell of every row of a picture that shows the film from the surface down, to scale. */
export function rowsToCells(film: PulseFilm, rows: number): Int32Array {
  const depth = film.edges.at(-1) ?? 0;
  const cells = new Int32Array(rows);
  let cell = 0;
  for (let row = 0; row < rows; row++) {
    const z = (depth * (row + 0.5)) / rows;
    while (cell < film.edges.length - 2 && z >= (film.edges[cell + 1] ?? depth)) cell++;
    cells[row] = cell;
  }
  return cells;
}

/** Pixels of a canvas: red, green, blue and cover of each, row by row from the top. */
interface Picture {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8ClampedArray;
}

/** Writes one frame into columns `from` to `to` of a picture; what has left is clear. */
export function paintFrame(
  image: Picture,
  film: PulseFilm,
  index: number,
  cells: Int32Array,
  scale: { readonly low: number; readonly high: number },
  from: number,
  to: number,
): void {
  const frame = film.frames[index];
  const gone = film.gone[index] ?? 0;
  if (!frame) return;
  for (let row = 0; row < image.height; row++) {
    const cell = cells[row] ?? 0;
    const share = ((frame[cell] ?? scale.low) - scale.low) / (scale.high - scale.low);
    const colour = colours[Math.round(255 * Math.min(1, Math.max(0, share)))] ?? colours[0];
    for (let column = from; column < to; column++) {
      const at = 4 * (row * image.width + column);
      if (cell < gone || !colour) {
        image.data[at + 3] = 0;
        continue;
      }
      image.data[at] = colour[0];
      image.data[at + 1] = colour[1];
      image.data[at + 2] = colour[2];
      image.data[at + 3] = 255;
    }
  }
}

/** m of the stack that has left, and K at the surface and at the metal, in a frame. */
export function frameFigures(film: PulseFilm, index: number) {
  const frame = film.frames[index];
  const gone = film.gone[index] ?? 0;
  return {
    gone: film.edges[gone] ?? 0,
    surface: frame?.[Math.min(gone, (frame?.length ?? 1) - 1)] ?? film.start,
    metal: frame?.[Math.min(Math.max(gone, film.layerCells), (frame?.length ?? 1) - 1)] ?? film.start,
  };
}
