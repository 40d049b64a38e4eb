const BINS = 1024;
const TOP = 4;

/** Values from 0 to 4 counted in bins, so that quantiles of a whole less one part cost next to nothing. */
export class Counted {
  readonly counts = new Float64Array(BINS);
  total = 0;

  /** Values above 4 count as 4, below 0 as 0. */
  static of(values: ArrayLike<number>): Counted {
    const counted = new Counted();
    for (let i = 0; i < values.length; i += 1) {
      const bin = Math.min(BINS - 1, Math.max(0, Math.floor((values[i]! * BINS) / TOP)));
      counted.counts[bin]! += 1;
    }
    counted.total = values.length;
    return counted;
  }

  /** All of several. */
  static sum(parts: readonly Counted[]): Counted {
    const all = new Counted();
    for (const part of parts) {
      for (let b = 0; b < BINS; b += 1) all.counts[b]! += part.counts[b]!;
      all.total += part.total;
    }
    return all;
  }

  /** Value below which a share p lies, less one part where it is given; straight within a bin of 1/256. NaN of nothing. */
  quantile(p: number, without?: Counted): number {
    const target = p * (this.total - (without?.total ?? 0));
    let sum = 0;
    for (let b = 0; b < BINS; b += 1) {
      const here = this.counts[b]! - (without?.counts[b] ?? 0);
      if (here > 0 && sum + here >= target) return ((b + (target - sum) / here) * TOP) / BINS;
      sum += here;
    }
    return Number.NaN;
  }

  /** Share of the values above a bound, to a bin. */
  shareAbove(bound: number): number {
    let sum = 0;
    for (let b = Math.max(0, Math.ceil((bound * BINS) / TOP)); b < BINS; b += 1) sum += this.counts[b]!;
    return sum / this.total;
  }
}
