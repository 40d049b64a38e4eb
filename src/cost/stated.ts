import { normalQuantile } from "#numerics";
import { invalid, requireNonNegative } from "#units";

/** A figure with its stated spread: 5 % of cases below `low`, half below `middle`, 95 % below `high`. */
export interface Stated {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
  /** for shares and other figures with an upper end */
  readonly atMost?: number;
}

const Z95 = normalQuantile(0.95);

/**
 * Refuses a spread that is no spread: 0 < low ≤ middle ≤ high ≤ atMost, or all three equal and 0 or more (a fixed figure).
 * @param name as it stands in the message
 * @param unit as it stands in the message
 * @returns the same
 */
export function requireStated(name: string, stated: Stated, unit = ""): Stated {
  const { low, middle, high, atMost } = stated;
  requireNonNegative(name, middle, unit);
  requireNonNegative(`low end of ${name}`, low, unit);
  requireNonNegative(`high end of ${name}`, high, unit);
  if (low > middle) invalid(`low end of ${name}`, low, unit, "must not be above the middle");
  if (high < middle) invalid(`high end of ${name}`, high, unit, "must not be below the middle");
  if (low === 0 && high > 0) invalid(`low end of ${name}`, low, unit, "must be above 0 where the figure has a spread");
  if (atMost !== undefined && high > atMost) invalid(`high end of ${name}`, high, unit, `must be ${atMost} at most`);
  return stated;
}

/**
 * Quantile of a stated figure: middle·(high/middle)^(z/z95) above the middle, middle·(low/middle)^(−z/z95) below it,
 * z = Φ⁻¹(p); never above atMost. Each half is lognormal, and the three stated points are met exactly.
 * @param stated see Stated
 * @param p share, between 0 and 1
 * @returns same unit as the figure
 * Throws InvalidInput as requireStated. Source: two-piece lognormal, own choice: positive, and keeps lopsided spreads.
 */
export function statedQuantile(stated: Stated, p: number): number {
  const { low, middle, high, atMost } = requireStated("figure", stated);
  if (low === high) return middle;
  const z = normalQuantile(p) / Z95;
  const value = middle * (z >= 0 ? (high / middle) ** z : (low / middle) ** -z);
  return Math.min(value, atMost ?? Infinity);
}
