import type { LoopMemory } from "./instance.ts";

/** A line of pulses written the other way, seen from points along the line at hand; see `opposedRows`. */
export interface OpposedRows {
  /** by u = low, low + 1, ...: heights, and the factors of the squared distance (below 0) in the exponent */
  readonly height: Float64Array;
  readonly rate: Float64Array;
  readonly low: number;
  /** pulses of the line */
  readonly n: number;
  /** points s = first, first + step, ... */
  readonly first: number;
  readonly step: number;
  readonly rows: number;
  /** squares of the pulse pitch and of the distance across */
  readonly pitch2: number;
  readonly across2: number;
  /** pulses further than this along the line do not count */
  readonly reach: number;
}

/** Pulses that have fallen, in the order of time; flat arrays. */
export interface EarlierPulses {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly time: Float64Array;
  readonly energy: Float64Array;
}

/** m², m²/s, m */
export interface PlateLoopBody {
  readonly radius2: number;
  readonly diffusivity: number;
  readonly thickness: number;
}

/** Doubles of one group in `groupRise`: ln height, rate, spread, X, Y, xx, xy, yy. */
export const GROUP_SIZE = 8;

/**
 * The loops of heat across a plate. All are sums of Gaussians; units are the caller's.
 * - `opposedRows`: out[k] = Σ_u height·exp(rate·((c − u)²·pitch2 + across2)), s = first + k·step, c = 2s − n + 1, u from
 *   s − n + 1 to s within reach of c. Twins agree within 1e-13 of the result.
 * - `groupRise`: out[i] += Σ exp(A + rate·t − (1 − spread·t)·(xx·dx² + xy·dx·dy + yy·dy²)) over groups. 1e-13.
 * - `earlierPulses`: out[i − first] += Σ_{from ≤ j < i, strictly earlier} energy·exp(−2r²/W)/W·depth(age), with
 *   W = radius2 + 8·diffusivity·age and depth = images of the plate over √(π·diffusivity·age). 1e-13.
 * - `separableMap`: the map Σ_g down[g·ny + j]·along[g·nx + i]; nx a multiple of 8, ny even. 1e-13.
 */
export interface PlateLoops {
  opposedRows(spec: OpposedRows): Float64Array;
  groupRise(
    groups: Float64Array,
    count: number,
    x: Float64Array,
    y: Float64Array,
    time: Float64Array,
    out: Float64Array,
  ): void;
  earlierPulses(
    pulses: EarlierPulses,
    body: PlateLoopBody,
    from: number,
    first: number,
    last: number,
    out: Float64Array,
  ): void;
  separableMap(along: Float64Array, down: Float64Array, count: number, nx: number, ny: number): Float64Array;
}

function plateDepth(spread: number, thickness: number): number {
  const x = (thickness * thickness) / spread;
  const young = 1 / Math.sqrt(Math.PI * spread);
  if (x > 36) return young;
  const e = Math.exp(x < Math.PI ? (-Math.PI * Math.PI) / x : -x);
  const sum = 1 + 2 * (e + e ** 4 + e ** 9);
  return sum * (x < Math.PI ? 1 / thickness : young);
}

export const plainPlate: PlateLoops = {
  opposedRows({ height, rate, low, n, first, step, rows, pitch2, across2, reach }) {
    const out = new Float64Array(rows);
    for (let k = 0; k < rows; k++) {
      const s = first + k * step;
      const c = 2 * s - n + 1;
      const to = Math.min(s, c + reach);
      let sum = 0;
      for (let u = Math.max(s - n + 1, c - reach); u <= to; u++) {
        sum += height[u - low]! * Math.exp(rate[u - low]! * ((c - u) * (c - u) * pitch2 + across2));
      }
      out[k] = sum;
    }
    return out;
  },
  groupRise(groups, count, x, y, time, out) {
    for (let i = 0; i < x.length; i++) {
      const t = time[i]!;
      let sum = out[i]!;
      for (let k = 0, g = 0; k < count; k++, g += GROUP_SIZE) {
        const dx = x[i]! - groups[g + 3]!;
        const dy = y[i]! - groups[g + 4]!;
        const square = dx * (groups[g + 5]! * dx + groups[g + 6]! * dy) + groups[g + 7]! * dy * dy;
        sum += Math.exp(groups[g]! + groups[g + 1]! * t - (1 - groups[g + 2]! * t) * square);
      }
      out[i] = sum;
    }
  },
  earlierPulses({ x, y, time, energy }, { radius2, diffusivity, thickness }, from, first, last, out) {
    for (let i = first; i < last; i++) {
      let sum = 0;
      for (let j = from; j < i; j++) {
        const age = time[i]! - time[j]!;
        if (age <= 0) continue;
        const spread = diffusivity * age;
        const wide = radius2 + 8 * spread;
        const r2 = (x[i]! - x[j]!) ** 2 + (y[i]! - y[j]!) ** 2;
        sum += ((Math.exp((-2 * r2) / wide) * energy[j]!) / wide) * plateDepth(spread, thickness);
      }
      out[i - first]! += sum;
    }
  },
  separableMap(along, down, count, nx, ny) {
    const out = new Float64Array(nx * ny);
    for (let g = 0; g < count; g++) {
      for (let j = 0; j < ny; j++) {
        const factor = down[g * ny + j]!;
        for (let i = 0; i < nx; i++) out[j * nx + i]! += factor * along[g * nx + i]!;
      }
    }
    return out;
  },
};

/** The same loops by SIMD. */
export function wasmPlate(memory: LoopMemory): PlateLoops {
  /** Copies into the memory of the loops; the views of earlier copies may be cut off, their addresses stay. */
  const put = (values: Float64Array, from: number, to: number, slack: number): number => {
    const at = memory.place(8 * (to - from + slack));
    memory.f64(at, to - from).set(from === 0 && to === values.length ? values : values.subarray(from, to));
    return at;
  };
  return {
    opposedRows({ height, rate, low, n, first, step, rows, pitch2, across2, reach }) {
      memory.reset();
      const a = put(height, 0, height.length, 2);
      const q = put(rate, 0, rate.length, 2);
      // What lies behind the last value is read, and thrown away, so it must be a number.
      memory.f64(a + 8 * height.length, 1)[0] = 0;
      memory.f64(q + 8 * rate.length, 1)[0] = 0;
      const out = memory.place(8 * rows);
      memory.call.opposedRows(a, q, low, first, step, rows, n, pitch2, across2, reach, out);
      return memory.f64(out, rows).slice();
    },
    groupRise(groups, count, x, y, time, out) {
      memory.reset();
      const n = x.length;
      const even = n + (n % 2);
      const g = put(groups, 0, count * GROUP_SIZE, 0);
      const px = put(x, 0, n, 1);
      const py = put(y, 0, n, 1);
      const t = put(time, 0, n, 1);
      const o = put(out, 0, n, 1);
      memory.call.groupRise(g, count, px, py, t, even, o);
      out.set(memory.f64(o, n));
    },
    earlierPulses({ x, y, time, energy }, body, from, first, last, out) {
      memory.reset();
      const px = put(x, from, last, 1);
      const py = put(y, from, last, 1);
      const t = put(time, from, last, 1);
      const e = put(energy, from, last, 1);
      const o = put(out, 0, last - first, 0);
      const { radius2, diffusivity, thickness } = body;
      const shift = first - from;
      memory.call.earlierPulses(px, py, t, e, 0, shift, last - from, radius2, diffusivity, thickness, o);
      out.set(memory.f64(o, last - first));
    },
    separableMap(along, down, count, nx, ny) {
      memory.reset();
      const a = put(along, 0, count * nx, 0);
      const d = put(down, 0, count * ny, 0);
      const out = memory.place(8 * nx * ny);
      memory.call.separableMap(a, d, count, nx, ny, out);
      return memory.f64(out, nx * ny).slice();
    },
  };
}
