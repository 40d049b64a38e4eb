import type { Ratio, SquareMetre, Second } from "#terms";
import { invalid, requireInteger, requireNonNegative, requirePositive } from "#units";

/** Refuses anything but a share above 0 and up to 1; returns it. */
export function workingShare(value: Ratio): Ratio {
  if (!(value > 0 && value <= 1)) invalid("share of time at work", value, "", "above 0 and up to 1");
  return value;
}

/** What an order takes. */
export interface JobTime {
  /** m² */
  readonly area: SquareMetre;
  /** h of paid time */
  readonly hours: number;
  /** h of laser on the part */
  readonly laserHours: number;
  /** m²/h over the whole order, handling included */
  readonly rate_m2_per_h: number;
}

/**
 * Hours for an order: area·count/(rate·share of time at work) + count·handling.
 * @param area m², of one part
 * @param count parts, 1 or more
 * @param areaRate m²/s, turn-rounds included (#beam areaRate)
 * @param workingTime share of the paid time with the laser at work, above 0 and up to 1
 * @param handling s for each part, 0 when not given
 * @returns see JobTime
 * Throws InvalidInput outside these ranges. Source: definition.
 */
export function hoursForOrder(
  area: SquareMetre,
  count: number,
  areaRate: number,
  workingTime: Ratio,
  handling: Second = 0,
): JobTime {
  requirePositive("area", area, "m2");
  requireInteger("count", count, 1);
  requirePositive("area rate", areaRate, "m2/s");
  requireNonNegative("handling time", handling, "s");
  const total = area * count;
  const laserHours = total / areaRate / 3600;
  const hours = laserHours / workingShare(workingTime) + (count * handling) / 3600;
  return { area: total, hours, laserHours, rate_m2_per_h: total / hours };
}

/**
 * Rate that the beam's power could give, from the published energy per area and thickness: v = P/(e·thickness).
 * Published paint removal spans 0.15 to 1.3 J/cm² per µm (0.33: Brygo et al. 2006): a range to stand beside the
 * computed rate, not a prediction.
 * @param meanPower W
 * @param thickness m
 * @returns m²/s: slow and fast end
 * Throws InvalidInput when an argument is not positive. Source: range of published values; Brygo 2006 (from memory).
 */
export function publishedRateRange(
  meanPower: number,
  thickness: number,
): { readonly slow: number; readonly fast: number } {
  requirePositive("mean power", meanPower, "W");
  requirePositive("thickness", thickness, "m");
  // 1 J/cm² per µm = 1e10 J/m³
  return { slow: meanPower / (1.3e10 * thickness), fast: meanPower / (0.15e10 * thickness) };
}
