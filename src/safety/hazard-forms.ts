import type { Metre, Radian, Ratio } from "#terms";
import { invalid, requireInRange, requireNonNegative, requirePositive, requireShare } from "#units";

/*
 * Distances at which exposure has fallen to a limit. `load` is W with a limit in W/m², or J of one pulse with a limit in
 * J/m². Diameters and divergences are taken where the irradiance is 1/e of its peak (d63).
 */

/** d63 from the 1/e² diameter: d/√2 (Gaussian beam). @param diameter m @returns m. Source: ISO 11146 definitions. */
export function diameter63(diameter: Metre): Metre {
  return requirePositive("beam diameter", diameter, "m") / Math.SQRT2;
}

/** Diameter at which a load spread evenly meets the limit: √(4·load/(π·limit)), m. */
function limitDiameter(load: number, limit: number): Metre {
  return Math.sqrt(
    (4 * requireNonNegative("power or pulse energy", load)) / (Math.PI * requirePositive("exposure limit", limit)),
  );
}

/**
 * Collimated beam: √(4·load/(π·limit) − a²)/φ, the longer of the two usual forms (the other is [√(…) − a]/φ).
 * @param load W or J
 * @param limit W/m² or J/m²
 * @param diameter m, a = d63 where the beam leaves
 * @param divergence rad, φ, full angle at 1/e
 * @returns m, 0 when the limit is not exceeded even there
 * Throws InvalidInput when an argument is not positive. Source: IEC TR 60825-14; OSHA laser guidance (from memory).
 */
export function collimatedDistance(load: number, limit: number, diameter: Metre, divergence: Radian): Metre {
  const reach = limitDiameter(load, limit);
  requirePositive("beam diameter", diameter, "m");
  requirePositive("divergence", divergence, "rad");
  return reach > diameter ? Math.sqrt(reach * reach - diameter * diameter) / divergence : 0;
}

/**
 * Behind a focusing lens: (f/d63)·√(4·load/(π·limit)).
 * @param load W or J
 * @param limit W/m² or J/m²
 * @param focalLength m
 * @param diameter m, d63 on the lens
 * @returns m
 * Throws InvalidInput when an argument is not positive. Source: DGUV Information 203-093; OSHA laser guidance (from memory).
 */
export function lensDistance(load: number, limit: number, focalLength: Metre, diameter: Metre): Metre {
  return (
    (requirePositive("focal length", focalLength, "m") / requirePositive("beam diameter", diameter, "m")) *
    limitDiameter(load, limit)
  );
}

/** tan(asin NA)/1.7, the spread of the 1/e radius of a fibre's light: NA is taken at 5 % of the peak. */
function fibreSpread(numericalAperture: Ratio): number {
  if (!(numericalAperture > 0 && numericalAperture < 1))
    invalid("numerical aperture", numericalAperture, "", "between 0 and 1, ends excluded");
  return numericalAperture / Math.sqrt(1 - numericalAperture * numericalAperture) / 1.7;
}

/**
 * Open end of a fibre: (1.7/tan(asin NA))·√(load/(π·limit)).
 * @param load W or J
 * @param limit W/m² or J/m²
 * @param numericalAperture NA, between 0 and 1
 * @returns m
 * Throws InvalidInput outside these ranges. Source: IEC TR 60825-14 in the tangent form (from memory).
 */
export function fibreDistance(load: number, limit: number, numericalAperture: Ratio): Metre {
  return limitDiameter(load, limit) / 2 / fibreSpread(numericalAperture);
}

/**
 * Share of the light of an open fibre end that enters an aperture: 1 − exp(−(a/2)²/w²), w = distance·tan(asin NA)/1.7.
 * @param numericalAperture NA, between 0 and 1
 * @param distance m
 * @param aperture m, diameter; 7 mm for the eye
 * @returns share
 * Throws InvalidInput outside these ranges. Source: Gaussian far field; AUVA M 082 table 3.
 */
export function fibreShare(numericalAperture: Ratio, distance: Metre, aperture: Metre): Ratio {
  const radius = requirePositive("distance", distance, "m") * fibreSpread(numericalAperture);
  return -Math.expm1(-((requirePositive("aperture", aperture, "m") / 2 / radius) ** 2));
}

/**
 * Diffuse (Lambertian) reflection: √(ρ·load·cos θ/(π·limit)).
 * @param load W or J
 * @param limit W/m² or J/m²
 * @param reflectance ρ, 0 to 1
 * @param angle rad, θ from the normal of the surface, 0 to π/2
 * @returns m
 * Throws InvalidInput outside these ranges. Source: Lambert's law; OSHA laser guidance (from memory).
 */
export function diffuseDistance(load: number, limit: number, reflectance: Ratio, angle: Radian): Metre {
  requireShare("reflectance", reflectance);
  requireInRange("viewing angle", angle, "rad", 0, Math.PI / 2);
  return (limitDiameter(load, limit) / 2) * Math.sqrt(reflectance * Math.cos(angle));
}

/**
 * Light thrown evenly into the half-space in front of the surface: √(load/(2π·limit)).
 * @param load W or J
 * @param limit W/m² or J/m²
 * @returns m
 * Throws InvalidInput when an argument is not positive. Source: DGUV Information 203-093, 4.3.
 */
export function halfSpaceDistance(load: number, limit: number): Metre {
  return limitDiameter(load, limit) / Math.sqrt(8);
}

/** A distance as it is shown, never shortened: up to the next 0.1 m below 10 m, 1 m below 100 m, 10 m beyond. */
export function roundUpDistance(distance: Metre): Metre {
  requireNonNegative("distance", distance, "m");
  const perStep = distance < 10 ? 10 : distance < 100 ? 1 : 0.1;
  return Math.ceil(distance * perStep - 1e-9) / perStep;
}
