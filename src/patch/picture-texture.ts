import { createRandom } from "#numerics";

/** Random values on a lattice, standard normal, fixed by a seed. */
function lattice(columns: number, rows: number, seed: number, stream: number): Float32Array {
  const random = createRandom(seed).substream(stream);
  return Float32Array.from({ length: columns * rows }, () => random.normal());
}

/**
 * A smooth field that is standard normal at every place: lattice values weighted by smooth steps, over √Σw².
 * width and height in pixels; grainX, grainY: pixels between lattice points; the same seed gives the same field.
 * Errors: none. Source: own.
 */
export function normalField(
  width: number,
  height: number,
  grainX: number,
  grainY: number,
  seed: number,
  stream: number,
): Float32Array {
  const columns = Math.ceil(width / grainX) + 2;
  const rows = Math.ceil(height / grainY) + 2;
  const values = lattice(columns, rows, seed, stream);
  const field = new Float32Array(width * height);
  const smooth = (t: number) => t * t * (3 - 2 * t);
  for (let j = 0; j < height; j++) {
    const v = Math.floor(j / grainY);
    const wy = smooth(j / grainY - v);
    for (let i = 0; i < width; i++) {
      const u = Math.floor(i / grainX);
      const wx = smooth(i / grainX - u);
      const at = v * columns + u;
      const a = (1 - wx) * (1 - wy);
      const b = wx * (1 - wy);
      const c = (1 - wx) * wy;
      const d = wx * wy;
      const sum = a * values[at]! + b * values[at + 1]! + c * values[at + columns]! + d * values[at + columns + 1]!;
      field[j * width + i] = sum / Math.sqrt(a * a + b * b + c * c + d * d);
    }
  }
  return field;
}
