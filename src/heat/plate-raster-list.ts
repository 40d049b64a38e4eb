import type { PlateKernel } from "./plate-kernel.ts";
import { GaussianList } from "./plate-list.ts";
import type { PulseRaster } from "./plate-raster.ts";

/** How finely old pulses are told apart, see `rasterMap`. */
export interface RasterFineness {
  /** oldest over youngest age in one group, above 1 */
  readonly ageRatio: number;
  /** side of a cell over the standard deviation of the heat in it */
  readonly cell: number;
}

/** Lines `first` ... `last` of a pass, that pass and the passes before it, as many as `passes`. */
interface Slab {
  readonly pass: number;
  readonly first: number;
  readonly last: number;
  readonly passes: number;
}

/** Variance of `count` evenly spaced values at distance 1. */
function evenVariance(count: number): number {
  return (count * count - 1) / 12;
}

/**
 * The first `count` pulses of a raster as separable Gaussians at `time`, youngest first: pulses of late lines in short
 * runs, lines in cells, whole passes together once they are old. The number of Gaussians grows with the logarithm of
 * the number of passes. time: s, after the last pulse. Source: moment matching by age and place, own.
 */
export function rasterList(
  kernel: PlateKernel,
  raster: PulseRaster,
  count: number,
  time: number,
  fineness: RasterFineness,
): GaussianList {
  return new RasterGrouping(kernel, raster, time, fineness).list(count);
}

class RasterGrouping {
  readonly #raster: PulseRaster;
  readonly #time: number;
  readonly #fineness: RasterFineness;
  readonly #list: GaussianList;

  constructor(kernel: PlateKernel, raster: PulseRaster, time: number, fineness: RasterFineness) {
    this.#raster = raster;
    this.#time = time;
    this.#fineness = fineness;
    this.#list = new GaussianList(kernel);
  }

  list(count: number): GaussianList {
    const { pulsesPerLine: n, linesPerPass: m } = this.#raster;
    const whole = Math.floor(count / n);
    if (count > whole * n) this.#runs(whole, count - whole * n);
    let next = whole - 1;
    while (next >= 0) {
      const pass = Math.floor(next / m);
      const slab = this.#slab(pass, next - pass * m);
      if (slab) this.#cells(slab);
      else this.#runs(next, n);
      next = slab ? (slab.pass - slab.passes + 1) * m + slab.first - 1 : next - 1;
    }
    return this.#list;
  }

  #start(pass: number, line: number): number {
    return pass * this.#raster.passTime + line * this.#raster.lineTime;
  }

  #youngest(pass: number, line: number): number {
    return this.#time - this.#start(pass, line) - (this.#raster.pulsesPerLine - 1) * this.#raster.period;
  }

  /** The most lines, or whole passes, from line `last` of a pass backwards whose ages lie within the ratio. */
  #slab(pass: number, last: number): Slab | null {
    const oldest = this.#fineness.ageRatio * this.#youngest(pass, last);
    if (this.#time - this.#start(pass, last) > oldest) return null;
    const { linesPerPass: m, passTime, lineTime } = this.#raster;
    if (last === m - 1 && this.#time - this.#start(pass, 0) <= oldest) {
      const more = Math.floor((oldest - (this.#time - this.#start(pass, 0))) / passTime + 1e-9);
      return { pass, first: 0, last, passes: 1 + Math.min(pass, more) };
    }
    const lines = Math.floor((oldest - (this.#time - this.#start(pass, last))) / lineTime + 1e-9);
    return { pass, first: Math.max(0, last - lines), last, passes: 1 };
  }

  /** Pulses 0 ... count − 1 of one line in runs that are short against their age and their spread. */
  #runs(lineIndex: number, count: number): void {
    const { linesPerPass: m, pulsesPerLine: n, period, pitch, energy, lineSpacing, serpentine } = this.#raster;
    const pass = Math.floor(lineIndex / m);
    const line = lineIndex - pass * m;
    const way = serpentine && line % 2 === 1 ? -1 : 1;
    for (let last = count - 1; last >= 0; ) {
      const youngest = this.#time - this.#start(pass, line) - last * period;
      const byAge = ((this.#fineness.ageRatio - 1) * youngest) / period;
      const byPlace = (this.#fineness.cell * this.#list.deviation(youngest)) / pitch;
      const size = Math.min(last + 1, Math.max(1, Math.floor(Math.min(byAge, byPlace))));
      const middle = last - 0.5 * (size - 1);
      const even = evenVariance(size);
      this.#list.add({
        energy: energy * size,
        x: (way === 1 ? middle : n - 1 - middle) * pitch,
        y: line * lineSpacing,
        age: youngest + 0.5 * (size - 1) * period,
        xx: even * pitch * pitch,
        yy: 0,
        tt: even * period * period,
        xt: way * even * pitch * period,
        yt: 0,
      });
      last -= size;
    }
  }

  #cells(slab: Slab): void {
    const { pulsesPerLine: n, pitch, lineSpacing } = this.#raster;
    const side = this.#fineness.cell * this.#list.deviation(this.#youngest(slab.pass, slab.last));
    const columns = Math.min(n, Math.ceil((n * pitch) / side));
    const lines = slab.last - slab.first + 1;
    const rows = Math.min(lines, Math.ceil((lines * lineSpacing) / side));
    for (let row = 0; row < rows; row++) {
      const from = slab.first + Math.round((row * lines) / rows);
      const to = slab.first + Math.round(((row + 1) * lines) / rows);
      for (let column = 0; column < columns; column++) {
        this.#cell(slab, from, to, Math.round((column * n) / columns), Math.round(((column + 1) * n) / columns));
      }
    }
  }

  /** Lines from ... to − 1 and places low ... high − 1 of them, over the passes of a slab, as one Gaussian. */
  #cell(slab: Slab, from: number, to: number, low: number, high: number): void {
    const { pulsesPerLine: n, period, pitch, energy, lineSpacing, lineTime, passTime, serpentine } = this.#raster;
    const size = high - low;
    const lines = to - from;
    const middle = 0.5 * (low + high - 1);
    let forward = lines;
    if (serpentine) forward = Math.ceil(to / 2) - Math.ceil(from / 2);
    const back = (lines - forward) / lines;
    const ahead = forward / lines;
    // Time at the middle of the cell within its line, one way and the other.
    const stepMean = ahead * middle + back * (n - 1 - middle);
    const stepApart = middle - (n - 1 - middle);
    const inLine = evenVariance(size);
    const across = evenVariance(lines);
    const passes = slab.passes;
    const lineMean = 0.5 * (from + to - 1);
    const fell = this.#start(slab.pass, lineMean) + stepMean * period - 0.5 * (passes - 1) * passTime;
    const ways = ahead * back * stepApart * stepApart + inLine;
    this.#list.add({
      energy: energy * size * lines * passes,
      x: middle * pitch,
      y: lineMean * lineSpacing,
      age: this.#time - fell,
      xx: inLine * pitch * pitch,
      yy: across * lineSpacing * lineSpacing,
      tt: ways * period * period + across * lineTime * lineTime + evenVariance(passes) * passTime * passTime,
      xt: (ahead - back) * inLine * pitch * period,
      yt: across * lineSpacing * lineTime,
    });
  }
}
