import { toSI } from "./convert.ts";
import { describeDimension, sameDimension } from "./dimension.ts";
import { invalid } from "./invalid-input.ts";
import { parseUnit } from "./parse-unit.ts";

const numberPattern = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?$/;
const leadingNumber = /^([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?)\s*(.*)$/s;
const decimalComma = /^[+-]?\d*,\d/;

/**
 * Reads a number from text or passes a finite number through. Decimal commas, hexadecimal, blanks and words are
 * refused.
 * @throws InvalidInput
 */
export function parseNumber(text: unknown, name: string, unit = ""): number {
  if (typeof text === "number") {
    if (!Number.isFinite(text)) invalid(name, text, unit, "must be a finite number");
    return text;
  }
  if (typeof text !== "string" || text.trim() === "") invalid(name, text, unit, "must be a number");
  const plain = text.trim().replace(/^[−–]/, "-");
  if (decimalComma.test(plain)) invalid(name, plain, unit, "write a decimal point, not a comma");
  if (!numberPattern.test(plain)) invalid(name, plain, unit, "must be a number");
  const value = Number(plain);
  if (!Number.isFinite(value)) invalid(name, plain, unit, "must be a finite number");
  return value;
}

/**
 * Reads a quantity such as "35 um" and returns it in SI. `unit` is the unit expected: any unit of the same dimension
 * is taken, and a bare number counts as being in `unit`.
 * @throws InvalidInput for a wrong dimension, an unknown unit, a decimal comma or anything that is not a number
 * @example parseQuantity("35 µm", "um", "thickness") // 3.5e-5
 */
export function parseQuantity(text: unknown, unit: string, name: string): number {
  const expected = parseUnit(unit);
  if (expected === null) invalid("unit", unit, "", "is not a known unit");
  if (typeof text === "number") return toSI(parseNumber(text, name, unit), unit);
  if (typeof text !== "string" || text.trim() === "")
    invalid(name, text, "", `needs ${describeDimension(expected.dimension, unit)}`);
  const plain = text.trim().replace(/^[−–]/, "-");
  if (decimalComma.test(plain)) invalid(name, plain, "", "write a decimal point, not a comma");
  const match = leadingNumber.exec(plain);
  if (match === null) invalid(name, plain, "", "must be a number with a unit");
  const [, digits = "", unitText = ""] = match;
  const value = parseNumber(digits, name, unitText);
  if (unitText === "") return toSI(value, unit);
  const given = parseUnit(unitText);
  if (given === null) {
    invalid(name, plain, "", `unknown unit; needs ${describeDimension(expected.dimension, unit)}`);
  }
  if (!sameDimension(given.dimension, expected.dimension)) {
    invalid(name, plain, "", `needs ${describeDimension(expected.dimension, unit)}`);
  }
  const si = toSI(value, unitText);
  if (!Number.isFinite(si)) invalid(name, plain, "", "must be a finite number");
  return si;
}
