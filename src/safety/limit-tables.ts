import type { JoulePerSquareMetre, Metre, Second } from "#terms";
import { requireInRange } from "#units";
import { correctionA, correctionC } from "./near-infrared.ts";

const LONGEST = 3e4;

/**
 * Eye limit for one exposure of length t, point source (C_E = 1), 7 mm aperture, Directive 2006/25/EC. 700-1050 nm:
 * 1.5e-4·C_A to 1e-11 s, 2.7e4·t^0.75·C_A to 1e-9 s, 5e-3·C_A to 18 µs, 18·t^0.75·C_A to 10 s; 1050-1400 nm:
 * 1.5e-3·C_C, 2.7e5·t^0.75·C_C, 5e-2·C_C to 50 µs, 90·t^0.75·C_C to 10 s; both 10·C_A·C_C W/m² beyond 10 s.
 * @param wavelength m, 700 to 1400 nm
 * @param t s, 1e-13 to 3e4
 * @returns J/m² over the whole time t
 * Throws InvalidInput outside these ranges. Source: Directive 2006/25/EC Annex II; the row beyond 10 s from memory.
 */
export function eyeLimitDirective(wavelength: Metre, t: Second): JoulePerSquareMetre {
  requireInRange("exposure time", t, "s", 1e-13, LONGEST);
  const cA = correctionA(wavelength);
  const cC = correctionC(wavelength);
  if (t >= 10) return 10 * cA * cC * t;
  const long = wavelength * 1e9 >= 1050 - 1e-6;
  const factor = long ? 10 * cC : cA * cC;
  if (t < 1e-11) return 1.5e-4 * factor;
  if (t < 1e-9) return 2.7e4 * t ** 0.75 * factor;
  if (t < (long ? 5e-5 : 1.8e-5)) return 5e-3 * factor;
  return (long ? 90 * cC : 18 * cA * cC) * t ** 0.75;
}

/**
 * Eye limit for one exposure of length t, point source, 7 mm aperture, IEC 60825-1:2014. 700-1050 nm: 2e-3·C4 to 5 µs,
 * 18·t^0.75·C4 to 10 s; 1050-1400 nm: 2e-2·C7 to 13 µs, 90·t^0.75·C7 to 10 s; both 10·C4·C7 W/m² beyond.
 * @param wavelength m, 700 to 1400 nm
 * @param t s, 1e-11 to 3e4
 * @returns J/m² over the whole time t
 * Throws InvalidInput outside these ranges. Source: IEC 60825-1:2014, from memory.
 */
export function eyeLimitIec(wavelength: Metre, t: Second): JoulePerSquareMetre {
  requireInRange("exposure time", t, "s", 1e-11, LONGEST);
  const c4 = correctionA(wavelength);
  const c7 = correctionC(wavelength);
  if (t >= 10) return 10 * c4 * c7 * t;
  if (wavelength * 1e9 >= 1050 - 1e-6) return t < 13e-6 ? 2e-2 * c7 : 90 * t ** 0.75 * c7;
  return t < 5e-6 ? 2e-3 * c4 : 18 * t ** 0.75 * c4;
}

/**
 * Skin limit for one exposure of length t, 3.5 mm aperture: 2e11·C_A W/m² below 1 ns, 200·C_A J/m² to 100 ns,
 * 1.1e4·C_A·t^0.25 J/m² to 10 s, 2e3·C_A W/m² beyond.
 * @param wavelength m, 700 to 1400 nm
 * @param t s, 1e-13 to 3e4
 * @returns J/m² over the whole time t
 * Throws InvalidInput outside these ranges. Source: Directive 2006/25/EC Annex II.
 */
export function skinLimit(wavelength: Metre, t: Second): JoulePerSquareMetre {
  requireInRange("exposure time", t, "s", 1e-13, LONGEST);
  const cA = correctionA(wavelength);
  if (t < 1e-9) return 2e11 * cA * t;
  if (t < 1e-7) return 200 * cA;
  return t < 10 ? 1.1e4 * cA * t ** 0.25 : 2e3 * cA * t;
}

/** Time within which pulses count as one, s: 18 µs below 1050 nm, 50 µs to 1400 nm (Directive 2006/25/EC Annex II). */
export function joinTimeDirective(wavelength: Metre): Second {
  return wavelength * 1e9 < 1050 - 1e-6 ? 18e-6 : 50e-6;
}

/** Time within which pulses count as one, s: 5 µs below 1050 nm, 13 µs to 1400 nm (IEC 60825-1:2014, from memory). */
export function joinTimeIec(wavelength: Metre): Second {
  return wavelength * 1e9 < 1050 - 1e-6 ? 5e-6 : 13e-6;
}
