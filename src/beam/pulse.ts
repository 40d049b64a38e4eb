import type { Hertz, Joule, LaserSetup, PulseChoice, Ratio, Second, Watt } from "#terms";
import { invalid, requireNonNegative, requirePositive } from "#units";
import { shown } from "./shown.ts";

/** Peak over E/τ for the two usual pulse shapes (τ = FWHM): 2·√(ln 2/π) = 0.939 for a Gaussian in time. */
export const pulseShapeFactor = { square: 1, gaussian: 2 * Math.sqrt(Math.LN2 / Math.PI) } as const;

/** Pulse widths come through unit conversions; these two are the same width. */
const sameWidth = (a: Second, b: Second): boolean => Math.abs(a - b) <= 1e-6 * b;

/** The pulse choice of a set-up at a width (s). Throws InvalidInput naming the widths on offer. */
export function pulseChoice(setup: LaserSetup, width: Second): PulseChoice {
  const found = setup.pulses.find((choice) => sameWidth(width, choice.width));
  if (found !== undefined) return found;
  const offered = setup.pulses.map((choice) => shown(choice.width * 1e9)).join(", ");
  const rule = offered === "" ? `${setup.id} is continuous and has no pulse width` : `${setup.id} offers ${offered} ns`;
  return invalid("pulse width", shown(width * 1e9), "ns", rule);
}

/** Largest pulse energy of a set-up at a pulse width (s), J. Throws InvalidInput for a width not offered. */
export function maxPulseEnergy(setup: LaserSetup, width: Second): Joule {
  return pulseChoice(setup, width).energyMax;
}

/**
 * Cut-in frequency: f_c = P_rated/E_max. Below it the mean power is E_max·f, not P_rated.
 * @param ratedPower W
 * @param energyMax J
 * @returns Hz
 * Throws InvalidInput when an argument is not positive. Source: definition of mean power.
 */
export function cutInFrequencyOf(ratedPower: Watt, energyMax: Joule): Hertz {
  return requirePositive("rated power", ratedPower, "W") / requirePositive("largest pulse energy", energyMax, "J");
}

/** Cut-in frequency of a set-up at a pulse width (s), Hz. Throws InvalidInput for a width not offered. */
export function cutInFrequency(setup: LaserSetup, width: Second): Hertz {
  return cutInFrequencyOf(setup.ratedPower, maxPulseEnergy(setup, width));
}

/**
 * Pulse energy that a pulsed source really delivers: E = min(P/f, E_max(τ)).
 * @param power W, mean power asked for
 * @param frequency Hz
 * @param energyMax J, largest energy at this pulse width
 * @returns J
 * Throws InvalidInput when an argument is not positive. Source: definition of mean power.
 */
export function pulseEnergy(power: Watt, frequency: Hertz, energyMax: Joule): Joule {
  requirePositive("power", power, "W");
  requirePositive("frequency", frequency, "Hz");
  requirePositive("largest pulse energy", energyMax, "J");
  return Math.min(power / frequency, energyMax);
}

/**
 * Peak power of a pulse: shape·E/τ.
 * @param energy J, 0 or more
 * @param width s, FWHM
 * @param shape 1 for a square pulse, 0.94 for a Gaussian one; see pulseShapeFactor
 * @returns W
 * Throws InvalidInput when an argument is not positive. Source: integral of the pulse shape.
 */
export function peakPower(energy: Joule, width: Second, shape: Ratio): Watt {
  requireNonNegative("pulse energy", energy, "J");
  return (requirePositive("pulse shape factor", shape, "") * energy) / requirePositive("pulse width", width, "s");
}
