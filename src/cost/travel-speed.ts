import { turnTime } from "#beam";
import type { Metre, MetrePerSecond, MetrePerSecondSquared } from "#terms";
import { requirePositive } from "#units";

/**
 * Speed at which head or hand must travel so that the lines of an oscillating beam lie the line spacing apart:
 * s/(w/v + 2·v/a), one line and its turn-round for each line spacing.
 * @param lineWidth m, w, of the oscillating line
 * @param speed m/s, v, of the spot along the line
 * @param lineSpacing m, s
 * @param acceleration m/s², a, of the mirrors
 * @returns m/s
 * Throws InvalidInput when an argument is not positive. Source: kinematics at constant acceleration.
 */
export function travelSpeedFor(
  lineWidth: Metre,
  speed: MetrePerSecond,
  lineSpacing: Metre,
  acceleration: MetrePerSecondSquared,
): MetrePerSecond {
  const line = requirePositive("line width", lineWidth, "m") / requirePositive("speed", speed, "m/s");
  return requirePositive("line spacing", lineSpacing, "m") / (line + turnTime(speed, acceleration));
}
