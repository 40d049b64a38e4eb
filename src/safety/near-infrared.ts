import type { Metre } from "#terms";
import { invalid } from "#units";

/** Limiting apertures over which exposure is averaged, m (Directive 2006/25/EC Annex II). */
export const eyeAperture: Metre = 7e-3;
export const skinAperture: Metre = 3.5e-3;

/**
 * Wavelength in nm, refused outside the range for which limits are built in.
 * @param wavelength m, 700 to 1400 nm
 * @returns nm
 */
export function nearInfraredNm(wavelength: Metre): number {
  const nm = Number((wavelength * 1e9).toPrecision(9));
  if (!(nm >= 700 && nm <= 1400)) {
    invalid(
      "wavelength",
      nm,
      "nm",
      "exposure limits are built in from 700 to 1400 nm only; ask the laser safety officer",
    );
  }
  return nm;
}

/**
 * Correction for less absorption in pigment: C_A = 10^(0.002(λ − 700)) to 1050 nm, then 5. Called C4 in IEC 60825-1.
 * @param wavelength m, 700 to 1400 nm
 * @returns factor, 1 to 5
 * Throws InvalidInput outside that range. Source: Directive 2006/25/EC Annex II.
 */
export function correctionA(wavelength: Metre): number {
  const nm = nearInfraredNm(wavelength);
  return nm < 1050 ? 10 ** (0.002 * (nm - 700)) : 5;
}

/**
 * Correction for absorption in the eye before the retina: C_C = 1 to 1150 nm, 10^(0.018(λ − 1150)) to 1200 nm, then 8.
 * Called C7 in IEC 60825-1, of which later editions rise further beyond 1200 nm; the lower value is kept.
 * @param wavelength m, 700 to 1400 nm
 * @returns factor, 1 to 8
 * Throws InvalidInput outside that range. Source: Directive 2006/25/EC Annex II.
 */
export function correctionC(wavelength: Metre): number {
  const nm = nearInfraredNm(wavelength);
  if (nm < 1150) return 1;
  return nm < 1200 ? 10 ** (0.018 * (nm - 1150)) : 8;
}
