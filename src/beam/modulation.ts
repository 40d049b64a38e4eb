import type { Hertz, Ratio, Second, Watt } from "#terms";
import { requirePositive } from "#units";
import { share } from "./require.ts";

/**
 * Mean power of a modulated continuous source: P·level·duty.
 * @param power W, rated or set power
 * @param level share of the power while on, above 0 and up to 1
 * @param duty on-share of each period, above 0 and up to 1
 * @returns W
 * Throws InvalidInput outside these ranges. Source: definition of mean power.
 */
export function meanPowerModulated(power: Watt, level: Ratio, duty: Ratio): Watt {
  return requirePositive("power", power, "W") * share("level", level) * share("duty", duty);
}

/**
 * On-time of one modulation period: duty/f.
 * @param duty on-share, above 0 and up to 1
 * @param frequency Hz
 * @returns s
 * Throws InvalidInput outside these ranges. Source: definition of duty.
 */
export function onTime(duty: Ratio, frequency: Hertz): Second {
  return share("duty", duty) / requirePositive("modulation frequency", frequency, "Hz");
}
