import type { BeamProfile, Joule, JoulePerSquareMetre, Metre, Watt, WattPerSquareMetre } from "#terms";
import { requireNonNegative, requirePositive } from "#units";

/**
 * Mean fluence: F̄ = 4·E/(π·d²), the pulse energy over the circle of diameter d.
 * @param energy J
 * @param diameter m, 1/e² (Gaussian) or flat diameter (top-hat)
 * @returns J/m²
 * Throws InvalidInput when the diameter is not positive or the energy negative. Source: ISO 11146-1 definitions.
 */
export function fluenceMean(energy: Joule, diameter: Metre): JoulePerSquareMetre {
  requireNonNegative("pulse energy", energy, "J");
  requirePositive("spot diameter", diameter, "m");
  return (4 * energy) / (Math.PI * diameter * diameter);
}

/**
 * Peak fluence: 2·F̄ for a Gaussian beam, F̄ for a top-hat. Always say which one is meant: a factor of 2.
 * @param energy J
 * @param diameter m
 * @param profile "gaussian" or "top-hat"
 * @returns J/m²
 * Throws InvalidInput as fluenceMean. Source: integral of the Gaussian profile, ISO 11146-1 definitions.
 */
export function fluencePeak(energy: Joule, diameter: Metre, profile: BeamProfile): JoulePerSquareMetre {
  return (profile === "gaussian" ? 2 : 1) * fluenceMean(energy, diameter);
}

/**
 * Irradiance in the middle of the spot: I₀ = 8·P/(π·d²) Gaussian, 4·P/(π·d²) top-hat.
 * @param power W, while on
 * @param diameter m
 * @param profile "gaussian" or "top-hat"
 * @returns W/m²
 * Throws InvalidInput when the diameter is not positive or the power negative. Source: as fluencePeak.
 */
export function irradiancePeak(power: Watt, diameter: Metre, profile: BeamProfile): WattPerSquareMetre {
  requireNonNegative("power", power, "W");
  requirePositive("spot diameter", diameter, "m");
  return ((profile === "gaussian" ? 8 : 4) * power) / (Math.PI * diameter * diameter);
}
