import { normalCdf } from "#numerics";
import { categoriesOf } from "./gauge-study.ts";
import { checkStudy, type GaugeReadings } from "./gauge-readings.ts";

/** Standard deviations in the unit of the readings. */
export interface RangeStudy {
  readonly repeat: number;
  readonly grader: number;
  readonly gauge: number;
  readonly part: number;
  readonly total: number;
  /** gauge over total, 0 to 1 */
  readonly gaugeShare: number;
  readonly categories: number | null;
  /** the graders differed less than repeats alone explain: their part stands as 0 */
  readonly graderClipped: boolean;
}

/**
 * Gauge study by averages and ranges: repeat = R̄·K1, grader = √((x̄diff·K2)² − repeat²/(p·r)), part = Rp·K3, with R̄ the
 * mean range of repeats, x̄diff the range of the graders' means, Rp that of the parts' means. K1 = 1/d2(r) and
 * K2, K3 = 1/d2*(1 range of o or p), to the four places that the manual prints.
 * @param readings by part, grader and repeat, any unit; at least 2 of each, none missing, 30 of each at most
 * @returns standard deviations in the unit of the readings, shares (1)
 * Throws InvalidInput for a study that is not crossed. Blind to an interaction: the analysis of variance is not.
 * Source: aiag-msa.
 */
export function rangeStudy(readings: GaugeReadings): RangeStudy {
  const { parts, graders, repeats } = checkStudy(readings);
  const mean = (values: readonly number[]): number => values.reduce((s, v) => s + v, 0) / values.length;
  const range = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);
  const repeat = mean(readings.flatMap((part) => part.map(range))) * fourPlaces(1 / rangeMoments(repeats).mean);
  const graderMeans = Array.from({ length: graders }, (_, j) => mean(readings.flatMap((part) => part[j]!)));
  const graderSquare = (range(graderMeans) * soleRange(graders)) ** 2 - repeat ** 2 / (parts * repeats);
  const part = range(readings.map((p) => mean(p.flat()))) * soleRange(parts);
  const grader = Math.sqrt(Math.max(0, graderSquare));
  const gauge = Math.hypot(repeat, grader);
  const total = Math.hypot(gauge, part);
  return {
    repeat,
    grader,
    gauge,
    part,
    total,
    gaugeShare: gauge / total,
    categories: categoriesOf(part, gauge),
    graderClipped: graderSquare < 0,
  };
}

const fourPlaces = (value: number): number => Math.round(value * 1e4) / 1e4;
const soleRange = (n: number): number => fourPlaces(1 / Math.sqrt(rangeMoments(n).square));

/**
 * Mean and mean square of the range of n standard normal values: E R = ∫ (1 − Φⁿ − (1 − Φ)ⁿ) dx (the constant d2) and
 * E R² = 2∬_{x<y} (1 − Φ(y)ⁿ − (1 − Φ(x))ⁿ + (Φ(y) − Φ(x))ⁿ) dx dy. n (1), 2 or more; results (1), to 1e-6.
 * Throws nothing. Source: Tippett, Biometrika 17 (1925) 364.
 */
export function rangeMoments(n: number): { readonly mean: number; readonly square: number } {
  const coarse = momentsBySteps(n, 0.2);
  const fine = momentsBySteps(n, 0.1);
  // The kink at x = y leaves an error in h² that two step lengths take away.
  return { mean: fine.mean, square: (4 * fine.square - coarse.square) / 3 };
}

function momentsBySteps(n: number, h: number): { readonly mean: number; readonly square: number } {
  const cdf = Array.from({ length: Math.round(16 / h) + 1 }, (_, i) => normalCdf(-8 + h * i));
  let mean = 0;
  let square = 0;
  cdf.forEach((low, i) => {
    mean += h * (1 - low ** n - (1 - low) ** n);
    for (let j = i; j < cdf.length; j++) {
      const high = cdf[j]!;
      const weight = i === j ? 1 : 2;
      square += weight * h * h * (1 - high ** n - (1 - low) ** n + (high - low) ** n);
    }
  });
  return { mean, square };
}
