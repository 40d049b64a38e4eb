/** Strips that a patch is cut into along its lines: streaks keep their phase from strip to strip, chance does not. */
export const STRIPS = 8;
/** Frequencies are spaced at half of what the length of a profile tells apart. */
const PADDING = 2;

export interface Grid {
  readonly values: Float32Array;
  /** along the lines, px */
  readonly width: number;
  /** across the lines, px */
  readonly height: number;
}

export interface SpectrumLine {
  /** cycles per pixel */
  readonly frequency: number;
  /** |mean over strips|² of the windowed transform */
  readonly coherent: number;
  /** Σ|strip − mean|² */
  readonly apart: number;
}

/** Profiles across lines that rise by `slope` px per px, one for each strip: rows less the shear, columns averaged. */
function profiles({ values, width, height }: Grid, slope: number): Float64Array[] {
  const lean = Math.ceil(Math.abs(slope) * width);
  const length = height - lean;
  return Array.from({ length: STRIPS }, (_, strip) => {
    const from = Math.floor((strip * width) / STRIPS);
    const to = Math.floor(((strip + 1) * width) / STRIPS);
    const sum = new Float64Array(length);
    for (let i = from; i < to; i += 1) {
      const shift = slope >= 0 ? Math.round(slope * i) : lean + Math.round(slope * i);
      for (let j = 0; j < length; j += 1) sum[j]! += values[(j + shift) * width + i]!;
    }
    return sum.map((v) => v / (to - from));
  });
}

/**
 * Coherent and incoherent power of the profiles of all strips, frequency by frequency, through a Hann window.
 * Units: slope px per px, frequencies in cycles per px from `low` to `high`; power in the square of the values.
 * Errors: none. Source: Oppenheim and Schafer for the window; coherence over strips own.
 */
export function strippedSpectrum(grid: Grid, slope: number, low: number, high: number): SpectrumLine[] {
  const strips = profiles(grid, slope);
  const n = strips[0]!.length;
  for (const strip of strips) {
    const middle = strip.reduce((sum, v) => sum + v, 0) / n;
    for (let j = 0; j < n; j += 1) strip[j] = (strip[j]! - middle) * (1 - Math.cos((2 * Math.PI * (j + 0.5)) / n));
  }
  const lines: SpectrumLine[] = [];
  const re = new Float64Array(STRIPS);
  const im = new Float64Array(STRIPS);
  const first = Math.ceil(low * PADDING * n);
  for (let m = first; m <= high * PADDING * n; m += 1) {
    const frequency = m / (PADDING * n);
    re.fill(0);
    im.fill(0);
    // cos and sin of the next pixel by turning those of this one
    const [turnC, turnS] = [Math.cos(2 * Math.PI * frequency), Math.sin(2 * Math.PI * frequency)];
    let [c, s] = [1, 0];
    for (let j = 0; j < n; j += 1) {
      for (let k = 0; k < STRIPS; k += 1) {
        re[k]! += strips[k]![j]! * c;
        im[k]! += strips[k]![j]! * s;
      }
      [c, s] = [c * turnC - s * turnS, c * turnS + s * turnC];
    }
    let [mr, mi] = [0, 0];
    for (let k = 0; k < STRIPS; k += 1) {
      mr += re[k]! / STRIPS;
      mi += im[k]! / STRIPS;
    }
    let apart = 0;
    for (let k = 0; k < STRIPS; k += 1) apart += (re[k]! - mr) ** 2 + (im[k]! - mi) ** 2;
    lines.push({ frequency, coherent: (mr * mr + mi * mi) / n ** 2, apart: apart / n ** 2 });
  }
  return lines;
}
