import type { Hertz, Joule, Metre, MetrePerSecond, Ratio, Second, Watt } from "#terms";
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

/** One burst of a modulated continuous beam on a moving line. */
export interface Burst {
  /** J in one on-time */
  readonly energy: Joule;
  /** m that the spot travels while on */
  readonly travel: Metre;
  /** m from burst to burst */
  readonly pitch: Metre;
  /** m of the line between bursts that the middle of the spot passes unlit */
  readonly gap: Metre;
}

/**
 * What one modulation period writes on the line: energy P·level·duty/f, travel v·duty/f, pitch v/f, gap v·(1 − duty)/f.
 * @param power W, rated or set power
 * @param level share of the power while on, above 0 and up to 1
 * @param duty on-share of each period, above 0 and up to 1
 * @param frequency Hz, of the modulation
 * @param speed m/s
 * @returns J and m
 * Throws InvalidInput outside these ranges. Source: kinematics, definition of duty.
 */
export function burstOf(power: Watt, level: Ratio, duty: Ratio, frequency: Hertz, speed: MetrePerSecond): Burst {
  const on = onTime(duty, frequency);
  const pitch = requirePositive("speed", speed, "m/s") / frequency;
  const travel = speed * on;
  return {
    energy: requirePositive("power", power, "W") * share("level", level) * on,
    travel,
    pitch,
    gap: pitch - travel,
  };
}
