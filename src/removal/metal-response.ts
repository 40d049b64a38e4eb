import { ROOM } from "./room.ts";

/**
 * How a bare metal really answers to a heat load, against the linear column with constant properties: peak rise and
 * melt depth as functions of the linear rise over the rise to melting. For a surface that absorbs all light in its skin
 * the heat equation is unchanged when time is scaled by s and depth by √s, so one table holds for every pulse width.
 */
export interface MetalResponse {
  /** K, real peak rise of the surface for a linear rise, from a starting temperature K */
  rise(linearRise: number, startTemperature: number): number;
  /** m, melt depth for a linear rise; `duration` s as handed to the column, `diffusivity` m²/s */
  meltDepth(linearRise: number, startTemperature: number, duration: number, diffusivity: number): number;
  /** linear rise (K) at which melting begins */
  meltOnset(startTemperature: number): number;
  /** linear rise (K) at which the melt is `depth` m deep */
  riseForMeltDepth(depth: number, startTemperature: number, duration: number, diffusivity: number): number;
}

/**
 * Table of a response over v = (start + linear rise − 293 K)/(melting − 293 K), one row per starting temperature: in
 * this coordinate melting begins near v = 1 whatever the start, so that rows may be blended.
 */
export interface ResponseTable {
  readonly meltingTemperature: number;
  /** v of each row's starting temperature, ascending */
  readonly starts: Float64Array;
  /** ascending, shared by all rows */
  readonly v: Float64Array;
  /** (real peak − 293 K)/(melting − 293 K), one row per start */
  readonly peak: readonly Float64Array[];
  /** melt depth over √(D·duration), one row per start */
  readonly melt: readonly Float64Array[];
}

/**
 * Reads a response table: linear in v and in the starting temperature, extended beyond the last v in proportion.
 *
 * Units: table as in `ResponseTable`. Range: start below melting. Errors: none.
 * Source: own derivation (similarity of the heat equation).
 */
export function metalResponse(table: ResponseTable): MetalResponse {
  const { starts, v } = table;
  const toMelt = table.meltingTemperature - ROOM;
  const at = (temperature: number) => (temperature - ROOM) / toMelt;
  // A patch asks many times from one start: the two rows around it are blended once.
  const peak = new Float64Array(v.length);
  const melt = new Float64Array(v.length);
  let blendedFor = Number.NaN;
  const from = (start: number): number => {
    const s = at(start);
    if (start === blendedFor) return s;
    let row = 0;
    while (row < starts.length - 2 && s > starts[row + 1]) row++;
    const weight = Math.min(1, Math.max(0, (s - starts[row]) / (starts[row + 1] - starts[row])));
    for (let i = 0; i < v.length; i++) {
      peak[i] = (1 - weight) * table.peak[row][i] + weight * table.peak[row + 1][i];
      melt[i] = (1 - weight) * table.melt[row][i] + weight * table.melt[row + 1][i];
    }
    blendedFor = start;
    return s;
  };
  return {
    rise(linearRise, start) {
      const s = from(start);
      return Math.max(0, read(v, peak, at(start + linearRise)) - s) * toMelt;
    },
    meltDepth(linearRise, start, duration, diffusivity) {
      from(start);
      return read(v, melt, at(start + linearRise)) * Math.sqrt(diffusivity * duration);
    },
    meltOnset(start) {
      const s = from(start);
      return (inverse(v, peak, 1 - 1e-9 * (1 - s)) - s) * toMelt;
    },
    riseForMeltDepth(depth, start, duration, diffusivity) {
      const s = from(start);
      return (inverse(v, melt, depth / Math.sqrt(diffusivity * duration)) - s) * toMelt;
    },
  };
}

/** Straight lines between points, in proportion beyond the last, constant before the first. */
function read(v: Float64Array, row: Float64Array, x: number): number {
  const last = v.length - 1;
  if (x >= v[last]) return (row[last] * x) / v[last];
  if (x <= v[0]) return row[0];
  let i = 1;
  while (v[i] <= x) i++;
  return row[i - 1] + ((row[i] - row[i - 1]) * (x - v[i - 1])) / (v[i] - v[i - 1]);
}

/** Smallest x at which a row that never falls reaches a value; beyond the last point in proportion. */
function inverse(v: Float64Array, row: Float64Array, value: number): number {
  const last = v.length - 1;
  if (value > row[last]) return row[last] > 0 ? (v[last] * value) / row[last] : Number.POSITIVE_INFINITY;
  let i = 1;
  while (row[i] < value) i++;
  const step = row[i] - row[i - 1];
  return step > 0 ? v[i - 1] + ((v[i] - v[i - 1]) * Math.max(0, value - row[i - 1])) / step : v[i - 1];
}
