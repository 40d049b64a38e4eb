import { invalid } from "#units";

export interface WeightedLine {
  /** value at `centre` */
  readonly level: number;
  readonly slope: number;
  /** weighted mean of x, where level and slope do not depend on each other */
  readonly centre: number;
  /** variances of level and slope, the given variances taken as they are */
  readonly levelVariance: number;
  readonly slopeVariance: number;
  /** Σ (y − line)²/variance */
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  /** y − line, in the order given */
  readonly residuals: readonly number[];
  /** share of each point in its own fitted value, 0 to 1 */
  readonly leverages: readonly number[];
}

/**
 * Straight line y = level + slope·(x − centre) by weights 1/variance: slope = Σw(x − x̄)(y − ȳ)/Σw(x − x̄)².
 * x, y: any units; variances in the square of y's unit, above 0; at least two different x.
 * Throws InvalidInput where all x are equal. Source: golub-van-loan-2013, 5.3, for two orthogonal columns.
 */
export function weightedLine(xs: readonly number[], ys: readonly number[], variances: readonly number[]): WeightedLine {
  let weight = 0;
  let centre = 0;
  let level = 0;
  xs.forEach((x, i) => {
    const w = 1 / variances[i]!;
    weight += w;
    centre += w * x;
    level += w * ys[i]!;
  });
  centre /= weight;
  level /= weight;
  let spread = 0;
  let product = 0;
  xs.forEach((x, i) => {
    spread += (x - centre) ** 2 / variances[i]!;
    product += ((x - centre) * (ys[i]! - level)) / variances[i]!;
  });
  const widest = Math.max(...xs) - Math.min(...xs);
  if (!(widest > 1e-9 * (Math.abs(centre) + widest)) || !(spread > 0))
    invalid("points of a line", xs.length, "", "must lie at two different places at least");
  const slope = product / spread;
  const residuals = xs.map((x, i) => ys[i]! - level - slope * (x - centre));
  return {
    level,
    slope,
    centre,
    levelVariance: 1 / weight,
    slopeVariance: 1 / spread,
    chiSquare: residuals.reduce((sum, r, i) => sum + (r * r) / variances[i]!, 0),
    degreesOfFreedom: xs.length - 2,
    residuals,
    leverages: xs.map((x, i) => (1 / weight + (x - centre) ** 2 / spread) / variances[i]!),
  };
}
