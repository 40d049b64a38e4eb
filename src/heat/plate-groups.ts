import type { EarlierPulses } from "#loops";

/** Pulses gathered into cells of space: per group the energy, the means of x, y and time and their second moments. */
export interface PulseGroups {
  readonly count: number;
  /** energy, x, y, time, xx, xy, yy, tt, xt, yt: ten columns of `count` */
  readonly columns: readonly Float64Array[];
}

/** Column numbers of `PulseGroups`. */
export const ENERGY = 0;
export const X = 1;
export const Y = 2;
export const TIME = 3;
export const XX = 4;
export const XY = 5;
export const YY = 6;
export const TT = 7;
export const XT = 8;
export const YT = 9;

/**
 * Pulses first ... last − 1 gathered into square cells of side `cell`: sums, means and second moments (central, over
 * the energy). Pulses without energy do not count. Units: J, m, s; cell m, > 0. Source: moment matching, own.
 */
export function gatherPulses(pulses: EarlierPulses, first: number, last: number, cell: number): PulseGroups {
  const { x, y, time, energy } = pulses;
  let [lowX, highX, lowY, highY] = [x[first]!, x[first]!, y[first]!, y[first]!];
  for (let i = first + 1; i < last; i++) {
    lowX = Math.min(lowX, x[i]!);
    highX = Math.max(highX, x[i]!);
    lowY = Math.min(lowY, y[i]!);
    highY = Math.max(highY, y[i]!);
  }
  const across = Math.max(1, Math.ceil((highX - lowX) / cell));
  const down = Math.max(1, Math.ceil((highY - lowY) / cell));
  const perX = across / Math.max(highX - lowX, 1e-300);
  const perY = down / Math.max(highY - lowY, 1e-300);
  const found = new Map<number, number>();
  const sums: Float64Array[] = Array.from({ length: 10 }, () => new Float64Array(last - first));
  let count = 0;
  for (let i = first; i < last; i++) {
    const e = energy[i]!;
    if (e === 0) continue;
    const column = Math.min(across - 1, Math.floor((x[i]! - lowX) * perX));
    const key = column + across * Math.min(down - 1, Math.floor((y[i]! - lowY) * perY));
    let g = found.get(key);
    if (g === undefined) {
      g = count++;
      found.set(key, g);
    }
    add(sums, g, e, x[i]! - lowX, y[i]! - lowY, time[i]! - time[first]!);
  }
  for (let g = 0; g < count; g++) centre(sums, g, lowX, lowY, time[first]!);
  return { count, columns: sums.map((s) => s.slice(0, count)) };
}

function add(sums: readonly Float64Array[], g: number, e: number, x: number, y: number, t: number): void {
  sums[ENERGY]![g]! += e;
  sums[X]![g]! += e * x;
  sums[Y]![g]! += e * y;
  sums[TIME]![g]! += e * t;
  sums[XX]![g]! += e * x * x;
  sums[XY]![g]! += e * x * y;
  sums[YY]![g]! += e * y * y;
  sums[TT]![g]! += e * t * t;
  sums[XT]![g]! += e * x * t;
  sums[YT]![g]! += e * y * t;
}

function centre(sums: readonly Float64Array[], g: number, lowX: number, lowY: number, start: number): void {
  const e = sums[ENERGY]![g]!;
  const x = sums[X]![g]! / e;
  const y = sums[Y]![g]! / e;
  const t = sums[TIME]![g]! / e;
  const over = (k: number, a: number, b: number) => {
    sums[k]![g] = sums[k]![g]! / e - a * b;
  };
  over(XX, x, x);
  over(XY, x, y);
  over(YY, y, y);
  over(TT, t, t);
  over(XT, x, t);
  over(YT, y, t);
  sums[X]![g] = lowX + x;
  sums[Y]![g] = lowY + y;
  sums[TIME]![g] = start + t;
}
