import { depthDecay, depthFactor, type PlateKernel } from "./plate-kernel.ts";

/** Moments of heat that counts as one Gaussian: J, m, s and their products; no covariance of x with y. */
export interface HeatMoments {
  readonly energy: number;
  readonly x: number;
  readonly y: number;
  /** s since the mean pulse fell */
  readonly age: number;
  readonly xx: number;
  readonly yy: number;
  readonly tt: number;
  /** with the time of falling (not the age) */
  readonly xt: number;
  readonly yt: number;
}

/** A list of separable Gaussians: surface rise Σ heat·N(x; mx, xx)·N(y; my, yy), N normal densities. K·m² and m². */
export class GaussianList {
  readonly heat: number[] = [];
  readonly mx: number[] = [];
  readonly my: number[] = [];
  readonly xx: number[] = [];
  readonly yy: number[] = [];
  readonly #kernel: PlateKernel;

  constructor(kernel: PlateKernel) {
    this.#kernel = kernel;
  }

  /**
   * Adds heat as it stands after its age: the variance grows by 2Dt, and younger parts weigh more, so means shift by
   * the rate of the fall times the covariance with time. Source: moment matching to second order, own.
   */
  add(m: HeatMoments): void {
    const { diffusivity, radius2, perHeat } = this.#kernel;
    const decay = depthDecay(this.#kernel, m.age);
    const spread = 0.25 * radius2 + 2 * diffusivity * (m.age - decay * m.tt);
    this.heat.push(m.energy * perHeat * depthFactor(this.#kernel, m.age) * (1 + 1.5 * m.tt * decay * decay));
    this.mx.push(m.x + decay * m.xt);
    this.my.push(m.y + decay * m.yt);
    this.xx.push(spread + m.xx);
    this.yy.push(spread + m.yy);
  }

  /** Standard deviation of heat of an age, m. */
  deviation(age: number): number {
    return Math.sqrt(0.25 * this.#kernel.radius2 + 2 * this.#kernel.diffusivity * age);
  }
}

/** Insulated edges across one axis, m; null: endless. */
export interface PlateSpan {
  readonly low: number;
  readonly high: number;
}

/**
 * Normal densities of all list entries at the places of one axis, images in both edges included; row g holds entry g,
 * `padded` values long. Terms beyond 6.5 standard deviations (6e-10) are left out.
 */
export function axisProfiles(
  mean: readonly number[],
  variance: readonly number[],
  places: Float64Array,
  padded: number,
  span: PlateSpan | null,
): Float64Array {
  const rows = new Float64Array(mean.length * padded);
  for (let g = 0; g < mean.length; g++) {
    const per = 1 / Math.sqrt(2 * Math.PI * variance[g]!);
    const reach = 6.5 * Math.sqrt(variance[g]!);
    for (const centre of imagesOf(mean[g]!, reach, places, span)) {
      for (let i = 0; i < places.length; i++) {
        const d = places[i]! - centre;
        if (d < reach && d > -reach) rows[g * padded + i]! += per * Math.exp((-0.5 * d * d) / variance[g]!);
      }
    }
  }
  return rows;
}

function imagesOf(mean: number, reach: number, places: Float64Array, span: PlateSpan | null): number[] {
  if (!span) return [mean];
  const length = span.high - span.low;
  const most = Math.ceil(reach / (2 * length)) + 1;
  const images: number[] = [];
  const [first, last] = [places[0]!, places[places.length - 1]!];
  for (let k = -most; k <= most; k++) {
    for (const centre of [mean + 2 * k * length, 2 * span.low - mean + 2 * k * length]) {
      if (centre > first - reach && centre < last + reach) images.push(centre);
    }
  }
  return images;
}
