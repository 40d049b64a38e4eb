import type { RandomStream } from "#numerics";

/** A random field over the plane, features about 1 wide, mean 0, standard deviation 1. */
export type Field = (x: number, y: number) => number;

const side = 256;
/** standard deviation of uniform values in −1 to 1, interpolated smoothly over a square */
const spread = Math.sqrt(1 / 3) * (1 - 1 + 2 * (9 / 5 - 2 + 4 / 7));

/** Values on a lattice with smooth steps between them; repeats after 256. */
export function latticeField(random: RandomStream): Field {
  const values = new Float32Array(side * side);
  let mean = 0;
  for (let k = 0; k < values.length; k++) {
    values[k] = 2 * (random.uint32() / 2 ** 32) - 1;
    mean += values[k]! / values.length;
  }
  for (let k = 0; k < values.length; k++) values[k] = (values[k]! - mean) / spread;
  return (x, y) => {
    const floorX = Math.floor(x);
    const floorY = Math.floor(y);
    const a = x - floorX;
    const b = y - floorY;
    const s = a * a * (3 - 2 * a);
    const t = b * b * (3 - 2 * b);
    const left = floorX & (side - 1);
    const right = (left + 1) & (side - 1);
    const low = (floorY & (side - 1)) * side;
    const high = ((floorY + 1) & (side - 1)) * side;
    const lower = values[low + left]! + s * (values[low + right]! - values[low + left]!);
    const upper = values[high + left]! + s * (values[high + right]! - values[high + left]!);
    return lower + t * (upper - lower);
  };
}

/** Three sizes on top of each other, as ragged as torn paint. */
export function raggedField(field: Field): Field {
  const norm = 1 / Math.sqrt(1 + 0.55 ** 2 + 0.3 ** 2);
  return (x, y) =>
    norm * (field(x, y) + 0.55 * field(2.13 * x + 17.3, 2.13 * y - 5.1) + 0.3 * field(4.7 * x - 31.9, 4.7 * y + 11.7));
}
