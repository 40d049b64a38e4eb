import type { Lens, Metre, Radian, Ratio } from "#terms";
import { invalid, requireNonNegative, requirePositive } from "#units";

/**
 * Focused 1/e² diameter: d0 = 4·M²·λ·f/(π·D).
 * @param m2 beam quality M², 1 or more
 * @param wavelength m
 * @param focalLength m
 * @param beamDiameter m, 1/e² diameter on the lens
 * @returns m
 * Valid: paraxial (D well below f). Throws InvalidInput when an argument is not positive or M² is below 1.
 * Source: ISO 11146-1 definitions.
 */
export function focusedDiameter(m2: Ratio, wavelength: Metre, focalLength: Metre, beamDiameter: Metre): Metre {
  if (!(m2 >= 1 && m2 < Infinity)) invalid("beam quality M2", m2, "", "1 or more");
  requirePositive("wavelength", wavelength, "m");
  requirePositive("focal length", focalLength, "m");
  requirePositive("beam diameter on the lens", beamDiameter, "m");
  return (4 * m2 * wavelength * focalLength) / (Math.PI * beamDiameter);
}

/**
 * Diameter of the image of a fibre core: d0 = d_core·f_focus/f_collimator.
 * @param coreDiameter m
 * @param focusFocalLength m
 * @param collimatorFocalLength m
 * @returns m
 * Valid: fibre imaging, aberrations small. Throws InvalidInput when an argument is not positive.
 * Source: geometrical optics, magnification of two lenses.
 */
export function fibreImageDiameter(coreDiameter: Metre, focusFocalLength: Metre, collimatorFocalLength: Metre): Metre {
  requirePositive("core diameter", coreDiameter, "m");
  requirePositive("focusing focal length", focusFocalLength, "m");
  requirePositive("collimator focal length", collimatorFocalLength, "m");
  return (coreDiameter * focusFocalLength) / collimatorFocalLength;
}

/**
 * Rayleigh length: z_R = π·d0²/(4·M²·λ).
 * @param focusDiameter m, 1/e² diameter in focus
 * @param m2 beam quality M², 1 or more
 * @param wavelength m
 * @returns m
 * Throws InvalidInput when an argument is not positive or M² is below 1. Source: ISO 11146-1 definitions.
 */
export function rayleighLength(focusDiameter: Metre, m2: Ratio, wavelength: Metre): Metre {
  if (!(m2 >= 1 && m2 < Infinity)) invalid("beam quality M2", m2, "", "1 or more");
  requirePositive("focus diameter", focusDiameter, "m");
  requirePositive("wavelength", wavelength, "m");
  return (Math.PI * focusDiameter * focusDiameter) / (4 * m2 * wavelength);
}

/**
 * Diameter out of focus: d(z) = d0·√(1 + (z/z_R)²).
 * @param focusDiameter m
 * @param rayleigh m, Rayleigh length
 * @param defocus m, either sign
 * @returns m
 * Throws InvalidInput when a length is not positive or the defocus not finite. Source: ISO 11146-1 definitions.
 */
export function diameterAtDefocus(focusDiameter: Metre, rayleigh: Metre, defocus: Metre): Metre {
  requirePositive("focus diameter", focusDiameter, "m");
  requirePositive("Rayleigh length", rayleigh, "m");
  requireNonNegative("defocus", Math.abs(defocus), "m");
  return focusDiameter * Math.hypot(1, defocus / rayleigh);
}

/**
 * Distance from focus at which the fluence has fallen by a share q: z = z_R·√(q/(1 − q)).
 * @param rayleigh m
 * @param fall share of the fluence lost, 0 < q < 1; 0.05 and 0.10 are usual
 * @returns m, to one side of the focus
 * Throws InvalidInput outside that range. Source: ISO 11146-1 beam propagation, solved for fluence ∝ 1/d².
 */
export function depthOfFocus(rayleigh: Metre, fall: Ratio): Metre {
  requirePositive("Rayleigh length", rayleigh, "m");
  if (!(fall > 0 && fall < 1)) invalid("fall of fluence", fall, "", "between 0 and 1, ends excluded");
  return rayleigh * Math.sqrt(fall / (1 - fall));
}

/** Spot diameter of a lens at a defocus, m (diameterAtDefocus with the lens's own figures; defocus in m). */
export function spotDiameterAt(lens: Lens, defocus: Metre): Metre {
  return diameterAtDefocus(lens.spotDiameter, lens.rayleighLength, defocus);
}

/**
 * What oblique incidence leaves of fluence or irradiance: cos θ.
 * @param angle rad from the surface normal, 0 to below π/2
 * @returns factor
 * Throws InvalidInput outside that range. Source: geometry, the footprint grows by 1/cos θ.
 */
export function incidenceFactor(angle: Radian): Ratio {
  if (!(angle >= 0 && angle < Math.PI / 2)) invalid("angle of incidence", angle, "rad", "0 or more and below pi/2");
  return Math.cos(angle);
}
