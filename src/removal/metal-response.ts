import { interpolateLinear } from "#numerics";

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

const ROOM = 293.15;

/**
 * Reads a response table: linear in v and in the starting temperature, extended beyond the last v in proportion.
 *
 * Units: table as in `ResponseTable`. Range: start below melting. Errors: none.
 * Source: own derivation (similarity of the heat equation).
 */
export function metalResponse(table: ResponseTable): MetalResponse {
  const { starts, v, peak, melt } = table;
  const toMelt = table.meltingTemperature - ROOM;
  const last = v[v.length - 1];
  const at = (temperature: number) => (temperature - ROOM) / toMelt;
  const read = (rows: readonly Float64Array[], x: number, s: number): number => {
    let row = 0;
    while (row < starts.length - 2 && s > starts[row + 1]) row++;
    const weight = Math.min(1, Math.max(0, (s - starts[row]) / (starts[row + 1] - starts[row])));
    const clamped = Math.min(x, last);
    const a = interpolateLinear(v, rows[row], clamped);
    const value = weight === 0 ? a : (1 - weight) * a + weight * interpolateLinear(v, rows[row + 1], clamped);
    return x > last ? (value * x) / last : value;
  };
  const rise = (linearRise: number, start: number) =>
    Math.max(0, read(peak, at(start + linearRise), at(start)) - at(start)) * toMelt;
  return {
    rise,
    meltDepth: (linearRise, start, duration, diffusivity) =>
      read(melt, at(start + linearRise), at(start)) * Math.sqrt(diffusivity * duration),
    meltOnset: (start) => bisect((x) => rise(x, start) >= toMelt * (1 - at(start)) * (1 - 1e-9), 0, 4 * toMelt),
    riseForMeltDepth: (depth, start, duration, diffusivity) => {
      const want = depth / Math.sqrt(diffusivity * duration);
      return bisect((x) => read(melt, at(start + x), at(start)) >= want, 0, 4 * last * toMelt);
    },
  };
}

/** Smallest x in [low, high] for which a rising condition holds. */
function bisect(holds: (x: number) => boolean, low: number, high: number): number {
  let a = low;
  let b = high;
  for (let i = 0; i < 50; i++) {
    const mid = (a + b) / 2;
    if (holds(mid)) b = mid;
    else a = mid;
  }
  return b;
}
