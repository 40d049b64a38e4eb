import { invalid } from "./invalid-input.ts";
import { parseUnit, type Unit } from "./parse-unit.ts";

function unitOf(text: string): Unit {
  return parseUnit(text) ?? invalid("unit", text, "", "is not a known unit");
}

/**
 * Value in `unit` to SI: value · factor + zero of the scale. "degC" is a point temperature (25 degC → 298.15 K);
 * a temperature difference is written in K.
 * @throws InvalidInput when the unit is not known
 */
export function toSI(value: number, unit: string): number {
  const { factor, offset } = unitOf(unit);
  return scale(value, factor) + offset;
}

/**
 * SI value to `unit`; the inverse of `toSI`.
 * @throws InvalidInput when the unit is not known
 */
export function fromSI(value: number, unit: string): number {
  const { factor, offset } = unitOf(unit);
  return unscale(value - offset, factor);
}

/** A power of ten below 1 is divided by its exact inverse, so that 35 um is the number written 35e-6. */
function scale(value: number, factor: number): number {
  const inverse = exactInverse(factor);
  return inverse === null ? value * factor : value / inverse;
}

function unscale(value: number, factor: number): number {
  const inverse = exactInverse(factor);
  return inverse === null ? value / factor : value * inverse;
}

function exactInverse(factor: number): number | null {
  if (factor >= 1) return null;
  const inverse = Math.round(1 / factor);
  return Number.isSafeInteger(inverse) && Math.abs(inverse * factor - 1) < 1e-12 ? inverse : null;
}
