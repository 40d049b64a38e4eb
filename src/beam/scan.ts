import type { Hertz, JoulePerMetre, JoulePerSquareMetre, Metre, MetrePerSecond, Ratio, Second, Watt } from "#terms";
import { requireNonNegative, requirePositive } from "#units";
import { wholePasses } from "./require.ts";

/**
 * Distance between pulses along a line: v/f.
 * @param speed m/s
 * @param frequency Hz
 * @returns m
 * Throws InvalidInput when an argument is not positive. Source: kinematics.
 */
export function pulsePitch(speed: MetrePerSecond, frequency: Hertz): Metre {
  return requirePositive("speed", speed, "m/s") / requirePositive("frequency", frequency, "Hz");
}

/**
 * Overlap of neighbouring spots: 1 − pitch/d; negative when they leave a gap.
 * Along the line pitch = v/f, between lines pitch = s.
 * @param pitch m
 * @param diameter m
 * @returns share of the diameter
 * Throws InvalidInput when an argument is not positive. Source: definition (common practice, no source).
 */
export function overlap(pitch: Metre, diameter: Metre): Ratio {
  return 1 - requireNonNegative("pitch", pitch, "m") / requirePositive("spot diameter", diameter, "m");
}

/**
 * Pulses counted over the d × d square: N = (f·d/v)·(d/s)·passes. The mean over the round spot is π/4 of it.
 * @param frequency Hz
 * @param diameter m
 * @param speed m/s
 * @param lineSpacing m
 * @param passes 1, 2, 3 …
 * @returns pulses
 * Throws InvalidInput when an argument is not positive or passes is not whole. Source: counting.
 */
export function pulsesPerPoint(
  frequency: Hertz,
  diameter: Metre,
  speed: MetrePerSecond,
  lineSpacing: Metre,
  passes: number,
): number {
  return (diameter / pulsePitch(speed, frequency)) * linesPerPoint(diameter, lineSpacing, passes);
}

/**
 * Lines counted over one diameter: (d/s)·passes.
 * @param diameter m
 * @param lineSpacing m
 * @param passes 1, 2, 3 …
 * @returns lines
 * Throws InvalidInput when an argument is not positive or passes is not whole. Source: counting.
 */
export function linesPerPoint(diameter: Metre, lineSpacing: Metre, passes: number): number {
  return (
    (requirePositive("spot diameter", diameter, "m") / requirePositive("line spacing", lineSpacing, "m")) *
    wholePasses(passes)
  );
}

/**
 * Dwell: time the spot takes over a point, d/v.
 * @param diameter m
 * @param speed m/s
 * @returns s
 * Throws InvalidInput when an argument is not positive. Source: kinematics.
 */
export function dwell(diameter: Metre, speed: MetrePerSecond): Second {
  return requirePositive("spot diameter", diameter, "m") / requirePositive("speed", speed, "m/s");
}

/**
 * Energy per length of line: P/v.
 * @param meanPower W
 * @param speed m/s
 * @returns J/m
 * Throws InvalidInput when the speed is not positive or the power negative. Source: definition.
 */
export function lineEnergy(meanPower: Watt, speed: MetrePerSecond): JoulePerMetre {
  return requireNonNegative("mean power", meanPower, "W") / requirePositive("speed", speed, "m/s");
}

/**
 * Energy per area of one pass: P/(v·s).
 * @param meanPower W
 * @param speed m/s
 * @param lineSpacing m
 * @returns J/m²
 * Throws InvalidInput when speed or spacing is not positive or the power negative. Source: definition.
 */
export function arealDose(meanPower: Watt, speed: MetrePerSecond, lineSpacing: Metre): JoulePerSquareMetre {
  return lineEnergy(meanPower, speed) / requirePositive("line spacing", lineSpacing, "m");
}
