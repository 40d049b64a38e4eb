import type { Metre, PerMetre, Ratio } from "#terms";
import { requireInRange, requireNonNegative, requirePositive } from "#units";

/**
 * Diffuse reflectance of an endless layer: R∞ = 1 + K/S − √((K/S)² + 2K/S), written without the difference of
 * two large numbers.
 * @param absorption K, 1/m, 0 or more
 * @param scattering S, 1/m, above 0
 * @returns share
 * Throws InvalidInput outside these ranges. Source: Kubelka & Munk, Z. techn. Phys. 12 (1931) 593.
 */
export function endlessReflectance(absorption: PerMetre, scattering: PerMetre): Ratio {
  const ratio = requireNonNegative("absorption", absorption, "1/m") / requirePositive("scattering", scattering, "1/m");
  return 1 / (1 + ratio + Math.sqrt(ratio * (ratio + 2)));
}

/** Diffuse reflectance and transmittance of one layer without surfaces, over black. */
export interface DiffuseLayer {
  readonly reflectance: Ratio;
  readonly transmittance: Ratio;
}

/**
 * Finite layer in diffuse light, over black: R = S·sinh γd/(α·sinh γd + γ·cosh γd), T = γ/(same), α = K + S,
 * γ = √(K(K + 2S)); written in decaying exponentials so that thick dark layers neither overflow nor lose digits.
 * @param absorption K, 1/m, 0 or more
 * @param scattering S, 1/m, 0 or more
 * @param thickness m, 0 or more
 * @returns reflectance and transmittance, shares
 * Throws InvalidInput outside these ranges. Source: Kubelka, J. Opt. Soc. Am. 38 (1948) 448.
 */
export function kubelkaMunk(absorption: PerMetre, scattering: PerMetre, thickness: Metre): DiffuseLayer {
  requireNonNegative("absorption", absorption, "1/m");
  requireNonNegative("scattering", scattering, "1/m");
  requireNonNegative("thickness", thickness, "m");
  const decay = Math.sqrt(absorption * (absorption + 2 * scattering));
  const through = Math.exp(-decay * thickness);
  const rest = decay > 0 ? -Math.expm1(-2 * decay * thickness) / decay : 2 * thickness;
  const divisor = (absorption + scattering) * rest + 1 + through * through;
  return { reflectance: (scattering * rest) / divisor, transmittance: (2 * through) / divisor };
}

/**
 * The same layer over a backing of diffuse reflectance R_g: R + T²·R_g/(1 − R·R_g).
 * @param absorption K, 1/m
 * @param scattering S, 1/m
 * @param thickness m
 * @param backing diffuse reflectance behind, 0 to 1
 * @returns share
 * Throws InvalidInput outside these ranges. Source: Kubelka 1948, as above.
 */
export function reflectanceOver(absorption: PerMetre, scattering: PerMetre, thickness: Metre, backing: Ratio): Ratio {
  requireInRange("backing reflectance", backing, "", 0, 1);
  const { reflectance, transmittance } = kubelkaMunk(absorption, scattering, thickness);
  // R and R_g both 1 would need an endless layer that absorbs nothing.
  return reflectance + (transmittance * transmittance * backing) / (1 - reflectance * backing);
}
