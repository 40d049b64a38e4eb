import { fromSI, toSI } from "#units";

/**
 * SI to the unit of the file, without the dirt of binary fractions (100e-9 s is 100 ns, not 100.00000000000001).
 * Twelve digits are kept. A value that is not finite has no place in a file and becomes null.
 */
export function out(value: number, unit: string): number {
  return tidy(unit === "" ? value : fromSI(value, unit));
}

/** As `out`, for values that may be null or without meaning. */
export function outOrNull(value: number | null, unit: string): number | null {
  return value === null || !Number.isFinite(value) ? null : out(value, unit);
}

/** Twelve significant digits, and no negative zero. */
export function tidy(value: number): number {
  return Number(value.toPrecision(12)) + 0;
}

/** From the unit of a file to SI. */
export function into(value: number, unit: string): number {
  return toSI(value, unit);
}

export function intoOrNull(value: number | null, unit: string): number | null {
  return value === null ? null : into(value, unit);
}
