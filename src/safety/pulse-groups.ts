import type { Hertz, JoulePerSquareMetre, Metre, Second } from "#terms";

/** Limit of one exposure by its length, J/m². */
export type LimitTable = (wavelength: Metre, t: Second) => JoulePerSquareMetre;

export interface PulseTrain {
  readonly wavelength: Metre;
  readonly onTime: Second;
  readonly frequency: Hertz;
  readonly duration: Second;
}

/** s, where rows of any of the tables meet */
const JOINS: readonly Second[] = [1e-11, 1e-9, 1e-7, 5e-6, 13e-6, 18e-6, 50e-6, 10];
const LONGEST: Second = 3e4;

/** Rounds up, but lets the last bits of 100 kHz × 50 µs pass as 5. */
export const wholePulses = (value: number): number => Math.max(1, Math.ceil(value - 1e-9 * value));

/**
 * Lowest limit per pulse over every group of neighbouring pulses: min over n of table(t_n)/n, t_n = (n − 1)/f + τ from
 * the start of the first pulse to the end of the last; from 10 s on the mean irradiance of the steady row counts too.
 * On a row c·t^p, t_n^p/n first rises and then falls with n, so that the ends of the rows are all that must be looked at.
 * @param train see PulseTrain: m, s, Hz, s
 * @param table limit of one exposure
 * @returns J/m² per pulse, at most the limit of a single pulse, never higher for a longer exposure
 * Valid as the table. Errors as the table. Source: Directive 2006/25/EC Annex II (any group of pulses); the sum is ours.
 */
export function groupLimit(train: PulseTrain, table: LimitTable): JoulePerSquareMetre {
  const { wavelength, onTime, frequency, duration } = train;
  const most = wholePulses(duration * frequency);
  const ends = JOINS.map((join) => Math.floor((join - onTime) * frequency) + 1);
  const groups = [1, most, ...ends, ...ends.map((n) => n + 1)].filter((n) => n >= 1 && n <= most);
  const limits = groups.map((n) => table(wavelength, Math.min((n - 1) / frequency + onTime, LONGEST)) / n);
  const steady = duration >= 10 ? table(wavelength, 10) / 10 / frequency : Infinity;
  return Math.min(steady, ...limits);
}
