import type { Hertz, Joule, JoulePerSquareMetre, Metre, Second, Watt, WattPerSquareMetre } from "#terms";
import { invalid, requireInRange, requirePositive } from "#units";
import { exposureLimit } from "./exposure-limit.ts";
import { eyeAperture, nearInfraredNm } from "./near-infrared.ts";

/** D steady, I pulses above 1 µs, R 1 ns to 1 µs, M shorter (EN 207). */
export type EyewearMode = "D" | "I" | "R" | "M";

export interface EyewearBeam {
  readonly wavelength: Metre;
  readonly meanPower: Watt;
  /** J per pulse or burst, null for a steady beam */
  readonly pulseEnergy: Joule | null;
  readonly onTime: Second | null;
  readonly frequency: Hertz | null;
  /** m, d63 of the beam at the eyewear */
  readonly diameter: Metre;
  /** of the filter; "plastic" asks for more and is taken when not given */
  readonly filter?: "glass" | "plastic";
  /** s of exposure behind the optical density, 10 when not given */
  readonly duration?: Second;
}

export interface EyewearAdvice {
  readonly opticalDensity: number;
  readonly levels: readonly { readonly mode: EyewearMode; readonly level: number }[];
  /** for example "1064 nm D LB7 + I LB8" */
  readonly marking: string;
  readonly notes: readonly string[];
  readonly sources: readonly string[];
}

/** Up to the next whole level, at least 1, without tripping over the last bits. */
const levelUp = (value: number): number => Math.max(1, Math.ceil(value - 1e-9));
const area = (diameter: Metre): number => (Math.PI * diameter * diameter) / 4;

/**
 * Optical density that brings a load down to its limit: OD = log10(H/H_limit), 0 where the limit is not exceeded.
 * @param exposure J/m² or W/m²
 * @param limit same unit
 * @returns decades
 * Throws InvalidInput when an argument is not positive. Source: definition of optical density.
 */
export function opticalDensity(exposure: number, limit: number): number {
  return Math.max(0, Math.log10(requirePositive("exposure", exposure) / requirePositive("exposure limit", limit)));
}

/**
 * How much harder a wide strong beam is on a filter: F = d^1.1693 (glass), d^1.2233 (plastic), d in mm from 1 to 15,
 * constant beyond, for more than 10 W.
 * @param diameter m, d63
 * @param power W, mean
 * @param filter "glass" or "plastic"
 * @returns factor on the irradiance, 1 or more
 * Throws InvalidInput when an argument is not positive. Source: EN 207, from memory.
 */
export function wideBeamFactor(diameter: Metre, power: Watt, filter: "glass" | "plastic"): number {
  const mm = Math.min(15, Math.max(1, requirePositive("beam diameter", diameter, "m") * 1e3));
  return requirePositive("mean power", power, "W") > 10 ? mm ** (filter === "glass" ? 1.1693 : 1.2233) : 1;
}

/** LB level for steady light: n ≥ log10(E) − 1. @param irradiance W/m² @returns level. Source: EN 207, 315-1400 nm. */
export function steadyLevel(irradiance: WattPerSquareMetre): number {
  return levelUp(Math.log10(requirePositive("irradiance", irradiance, "W/m2")) - 1);
}

/**
 * LB level for pulses: n ≥ log10(H/5) + 3 (I, R), log10(H/1.5) + 4 (M).
 * @param mode "I", "R" or "M"
 * @param exposure J/m², corrected for repetition
 * @returns level. Source: EN 207, 315-1400 nm.
 */
export function pulsedLevel(mode: "I" | "R" | "M", exposure: JoulePerSquareMetre): number {
  requirePositive("radiant exposure", exposure, "J/m2");
  return levelUp(mode === "M" ? Math.log10(exposure / 1.5) + 4 : Math.log10(exposure / 5) + 3);
}

/**
 * Radiant exposure of a train as EN 207 weighs it: H·N^(1/4). Up to ν_i = 1/T_i: N = 5 s·ν; above: the pulses inside
 * T_i are summed and N = 5 s·ν_i. T_i 50 µs for 1050-1400 nm, 18 µs below.
 * @param exposure J/m² of one pulse
 * @param frequency Hz, null for a single pulse
 * @param wavelength m
 * @returns J/m²
 * Throws InvalidInput when an argument is not positive. Source: EN 207, from memory.
 */
export function repeatedExposure(
  exposure: JoulePerSquareMetre,
  frequency: Hertz | null,
  wavelength: Metre,
): JoulePerSquareMetre {
  requirePositive("radiant exposure", exposure, "J/m2");
  if (frequency === null) return exposure;
  const joinTime = nearInfraredNm(wavelength) < 1050 ? 18e-6 : 50e-6;
  const joined = Math.max(1, requirePositive("frequency", frequency, "Hz") * joinTime);
  return exposure * joined * Math.max(1, 5 * Math.min(frequency, 1 / joinTime)) ** 0.25;
}

const modeOf = (onTime: Second): "I" | "R" | "M" => (onTime < 1e-9 ? "M" : onTime <= 1e-6 ? "R" : "I");

/**
 * Optical density and EN 207 protection levels for a beam of diameter d63 at the eyewear. The D level always follows
 * from the mean power. Throws InvalidInput outside 700 to 1400 nm or for values that are not positive.
 * Sources: EN 207 (from memory), DGUV Information 203-042; limits as exposureLimit.
 */
export function eyewear(beam: EyewearBeam): EyewearAdvice {
  const nm = nearInfraredNm(beam.wavelength);
  requirePositive("mean power", beam.meanPower, "W");
  requirePositive("beam diameter", beam.diameter, "m");
  const { pulseEnergy, onTime, frequency } = beam;
  if ((pulseEnergy === null) !== (onTime === null))
    invalid("pulse energy", pulseEnergy, "J", "goes with a pulse length, or both are missing");
  const duration = beam.duration ?? 10;
  const { eye } = exposureLimit({
    wavelength: beam.wavelength,
    onTime,
    frequency: onTime === null ? null : frequency,
    duration,
  });
  // A beam narrower than the pupil's 7 mm is averaged over it, as the limits are.
  const overEye = area(Math.max(beam.diameter, eyeAperture));
  const density =
    pulseEnergy === null
      ? opticalDensity(beam.meanPower / overEye, eye.irradiance)
      : opticalDensity(pulseEnergy / overEye, eye.perPulse ?? eye.irradiance * duration);
  const factor = wideBeamFactor(beam.diameter, beam.meanPower, beam.filter ?? "plastic");
  const levels: { mode: EyewearMode; level: number }[] = [
    { mode: "D", level: steadyLevel((beam.meanPower / area(beam.diameter)) * factor) },
  ];
  if (pulseEnergy !== null && onTime !== null) {
    requireInRange("pulse or burst length", onTime, "s", 1e-11, 0.25);
    const mode = modeOf(onTime);
    levels.push({
      mode,
      level: pulsedLevel(mode, repeatedExposure(pulseEnergy / area(beam.diameter), frequency, beam.wavelength)),
    });
  }
  const notes = [
    "EN 207 and EN 208 are replaced by ISO 19818-1:2021: ask which one the eyewear was tested to.",
    "Eyewear is the last barrier and is not meant for looking into the beam; the laser safety officer chooses it.",
  ];
  if (levels.some(({ level }) => level > 10))
    notes.unshift("No eyewear carries a level above LB10: enclose the beam instead.");
  const marking = `${nm} nm ${levels.map(({ mode, level }) => `${mode} LB${level}`).join(" + ")}`;
  return {
    opticalDensity: density,
    levels,
    marking,
    notes,
    sources: ["en-207", "iso-19818-1", "dguv-203-042", "directive-2006-25-ec", "iec-60825-1"],
  };
}
