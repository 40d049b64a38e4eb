import type { Joule, Metre, Second, Watt } from "#terms";
import { requireInRange, requireNonNegative } from "#units";
import { correctionA } from "./near-infrared.ts";

/**
 * Accessible emission limit of class 1 for 1050-1150 nm, point source: 7.7e-7 J to 13 µs, 3.5e-3·t^0.75 J to 10 s,
 * 1.9e-3 W beyond.
 * @param t s, 1e-11 to 3e4
 * @returns J over the time t
 * Throws InvalidInput outside that range. Source: IEC 60825-1:2014, from memory.
 */
export function classOneLimit(t: Second): Joule {
  requireInRange("emission time", t, "s", 1e-11, 3e4);
  if (t < 13e-6) return 7.7e-7;
  return t < 10 ? 3.5e-3 * t ** 0.75 : 1.9e-3 * t;
}

/**
 * Class 4 or not, from mean power and pulse energy with the beam accessible: class 3B ends at 0.5 W and, for pulses, at
 * 0.03·C4 J (0.15 J from 1050 nm).
 * @param wavelength m, 700 to 1400 nm
 * @param meanPower W
 * @param pulseEnergy J, null for a steady beam
 * @returns "4" or "3B or lower"
 * Throws InvalidInput outside that range or for negative values. Source: IEC 60825-1:2014, from memory.
 */
export function laserClass(wavelength: Metre, meanPower: Watt, pulseEnergy: Joule | null): "4" | "3B or lower" {
  const energyLimit = 0.03 * correctionA(wavelength);
  requireNonNegative("mean power", meanPower, "W");
  return meanPower > 0.5 || requireNonNegative("pulse energy", pulseEnergy ?? 0, "J") > energyLimit
    ? "4"
    : "3B or lower";
}
