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

/** Table of a response: per starting temperature a row over u = linear rise/(melting − start). */
export interface ResponseTable {
  readonly meltingTemperature: number;
  /** K, ascending */
  readonly starts: Float64Array;
  /** ascending, shared by all rows */
  readonly u: Float64Array;
  /** real rise over (melting − start), one row per start */
  readonly rise: readonly Float64Array[];
  /** melt depth over √(D·duration), one row per start */
  readonly melt: readonly Float64Array[];
}

/**
 * Reads a response table: linear in u and in the starting temperature, extended beyond the last u in proportion.
 *
 * Units: table as in `ResponseTable`. Range: start below melting; at or above it everything is molten from the first
 * instant and the last row is used. Errors: none. Source: own derivation (similarity of the heat equation).
 */
export function metalResponse(table: ResponseTable): MetalResponse {
  const { starts, u, rise, melt, meltingTemperature } = table;
  const last = u[u.length - 1];
  const toMelt = (start: number) => Math.max(meltingTemperature - start, 1);
  const read = (rows: readonly Float64Array[], ratio: number, start: number): number => {
    let row = 0;
    while (row < starts.length - 2 && start > starts[row + 1]) row++;
    const next = Math.min(row + 1, starts.length - 1);
    const span = starts[next] - starts[row];
    const weight = span > 0 ? Math.min(1, Math.max(0, (start - starts[row]) / span)) : 0;
    const clamped = Math.min(ratio, last);
    const value = (1 - weight) * interpolateLinear(u, rows[row], clamped) + weight * interpolateLinear(u, rows[next], clamped);
    return ratio > last ? (value * ratio) / last : value;
  };
  const onset = (start: number) => bisect((x) => read(rise, x, start) >= 1 - 1e-9, 0, last) * toMelt(start);
  return {
    rise: (linearRise, start) => read(rise, linearRise / toMelt(start), start) * toMelt(start),
    meltDepth: (linearRise, start, duration, diffusivity) => read(melt, linearRise / toMelt(start), start) * Math.sqrt(diffusivity * duration),
    meltOnset: onset,
    riseForMeltDepth: (depth, start, duration, diffusivity) => {
      const want = depth / Math.sqrt(diffusivity * duration);
      return bisect((x) => read(melt, x, start) >= want, 0, 4 * last) * toMelt(start);
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
