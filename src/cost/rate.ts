import type { Ratio } from "#terms";
import { invalid, requirePositive } from "#units";

/** Refuses anything but a share above 0 and up to 1; returns it. */
export function workingShare(value: Ratio): Ratio {
  if (!(value > 0 && value <= 1)) invalid("share of time at work", value, "", "above 0 and up to 1");
  return value;
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
