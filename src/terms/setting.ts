import type {
  Hertz,
  Joule,
  JoulePerMetre,
  JoulePerSquareMetre,
  Metre,
  MetrePerSecond,
  Ratio,
  Second,
  Watt,
  WattPerSquareMetre,
} from "./quantities.ts";

/**
 * One full set of process values. Mean power at the work is power·level·duty for a continuous source and
 * min(power·level, E_max·f) for a pulsed one.
 */
export interface Setting {
  /** W; rated or set power before `level` */
  readonly power: Watt;
  /** share of `power`, above 0 and up to 1 */
  readonly level: Ratio;
  /** on-share of each modulation period; 1 for pulsed sources and for an unmodulated beam */
  readonly duty: Ratio;
  /** pulse frequency, or modulation frequency; null for an unmodulated continuous beam */
  readonly frequency: Hertz | null;
  /** FWHM; null for a continuous source */
  readonly pulseWidth: Second | null;
  readonly speed: MetrePerSecond;
  readonly lineSpacing: Metre;
  readonly passes: number;
  readonly defocus: Metre;
  /** id of the lens in the set-up */
  readonly lens: string;
}

/** Beam arithmetic of one setting on one set-up (physics §1). Values without meaning are null. */
export interface BeamState {
  /** 1/e² diameter (Gaussian) or flat diameter (top-hat) at the work, defocus included */
  readonly spotDiameter: Metre;
  readonly meanPower: Watt;
  readonly pulseEnergy: Joule | null;
  readonly peakPower: Watt;
  readonly fluenceMean: JoulePerSquareMetre | null;
  readonly fluencePeak: JoulePerSquareMetre | null;
  readonly irradiancePeak: WattPerSquareMetre;
  readonly dwell: Second | null;
  readonly lineEnergy: JoulePerMetre;
  /** energy per area of one pass, mean power/(speed·spacing) */
  readonly arealDose: JoulePerSquareMetre;
  readonly pulsePitch: Metre | null;
  readonly pulseOverlap: Ratio | null;
  readonly lineOverlap: Ratio;
  /** pulses (or lines) counted over the d × d square, all passes */
  readonly eventsPerPoint: number;
  /** m²/s of one set of passes without turn-rounds */
  readonly areaRateIdeal: number;
  /** s, length of one on-time: pulse width, modulation burst, or null when continuous */
  readonly onTime: Second | null;
  /** True when the pulse energy limit, not the set power, sets the mean power. */
  readonly energyLimited: boolean;
}
