import { fromSI } from "./convert.ts";

/** What stands where a number has no meaning. */
export const noValue = "–";

const raised = "⁰¹²³⁴⁵⁶⁷⁸⁹";

function raise(exponent: number): string {
  return String(exponent).replace(/[-\d]/g, (c) => (c === "-" ? "⁻" : raised[Number(c)]!));
}

/**
 * A number for a person: `digits` significant digits, whole digits never dropped, no trailing zeros, powers of ten
 * below 1e-4 and from 1e7 up. Null and values that are not finite become an en dash.
 */
export function formatNumber(value: number | null | undefined, digits = 3): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return noValue;
  if (value === 0) return "0";
  const [mantissa = "0", power = "0"] = value.toExponential(digits - 1).split("e");
  const exponent = Number(power);
  if (exponent < -4 || exponent >= 7) {
    return minus(`${trimZeros(mantissa)}×10${raise(exponent)}`);
  }
  return minus(trimZeros(value.toFixed(Math.max(0, digits - 1 - exponent))));
}

function trimZeros(text: string): string {
  return text.includes(".") ? text.replace(/\.?0+$/, "") : text;
}

function minus(text: string): string {
  return text.replace(/^-/, "−");
}

/** A unit as it is set in print: "um" → "µm", "J/cm2" → "J/cm²", "degC" → "°C". */
export function unitLabel(unit: string): string {
  return unit
    .replace(/\^/g, "")
    .replace(/\bu(?=m|s|J|W|g|l|L|A|V|K|N|rad)/g, "µ")
    .replace(/deg([CF])/g, "°$1")
    .replace(/\*/g, "·")
    .replace(/(?<=[A-Za-z])-?\d/g, (exponent) => raise(Number(exponent)));
}

/**
 * An SI value as text in `unit`, for example formatQuantity(3.5e-5, "um") → "35 µm". `digits` are significant digits.
 * Null, undefined and values that are not finite give an en dash without a unit.
 * @throws InvalidInput when the unit is not known
 */
export function formatQuantity(valueSI: number | null | undefined, unit: string, digits = 3): string {
  const value = valueSI === null || valueSI === undefined ? null : fromSI(valueSI, unit);
  const text = formatNumber(value, digits);
  const label = unitLabel(unit);
  if (text === noValue || label === "" || label === "1") return text;
  return `${text} ${label}`;
}

/** Two SI values of one unit as "low to high unit". */
export function formatRange(lowSI: number | null, highSI: number | null, unit: string, digits = 3): string {
  const low = formatNumber(lowSI === null ? null : fromSI(lowSI, unit), digits);
  const high = formatNumber(highSI === null ? null : fromSI(highSI, unit), digits);
  const label = unitLabel(unit);
  return `${low} to ${high}${label === "" || label === "1" ? "" : ` ${label}`}`;
}
