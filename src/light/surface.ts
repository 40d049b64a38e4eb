import type { Metre, Ratio } from "#terms";
import { requireNonNegative, requirePositive } from "#units";

/**
 * Share of light that enters a bare surface at normal incidence: A = 4n/((n + 1)² + k²); on an opaque metal it is all
 * absorbed. Polished and clean: as-received surfaces absorb more.
 * @param n refractive index, above 0
 * @param k extinction coefficient, 0 or more
 * @returns share
 * Throws InvalidInput outside these ranges. Source: Fresnel equations at normal incidence.
 */
export function bareAbsorptance(n: number, k: number): Ratio {
  requirePositive("refractive index", n);
  requireNonNegative("extinction coefficient", k);
  return (4 * n) / ((n + 1) ** 2 + k * k);
}

/**
 * Depth at which the light inside has fallen to 1/e: δ = λ/(4·π·k).
 * @param wavelength m, in vacuum
 * @param k extinction coefficient, above 0
 * @returns m
 * Throws InvalidInput when an argument is not positive. Source: definition of the extinction coefficient.
 */
export function skinDepth(wavelength: Metre, k: number): Metre {
  return requirePositive("wavelength", wavelength, "m") / (4 * Math.PI * requirePositive("extinction coefficient", k));
}
