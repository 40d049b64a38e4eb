import { formatNumber, fromSI, InvalidInput, invalid, parseNumber, parseQuantity } from "#units";
import { words } from "../words/index.ts";

export interface NumberRule {
  readonly label: string;
  /** as the field shows it, "" for a plain number */
  readonly unit: string;
  /** a field that begins at 0 takes what is above 0 */
  readonly min: number;
  readonly max?: number | undefined;
  readonly whole?: boolean | undefined;
}

/** What a field says: a number in its unit, nothing, or one line on why it is neither. */
export type TypedNumber =
  | { readonly value: number | null; readonly line: null }
  | { readonly value: null; readonly line: string };

/**
 * A number as people type it: a decimal comma, blanks between thousands, the unit of the field or another of its kind
 * ("0.5 in" in a field of millimetres). What does not read is refused with a line and never guessed, so that no part of
 * what was typed falls away. A comma before three digits may stand for thousands: it is refused too.
 */
export function readNumber(text: string, rule: NumberRule): TypedNumber {
  const { label, unit, min, max, whole } = rule;
  const plain = text
    .trim()
    .replace(/(?<=\d)[\s\u00a0\u202f](?=\d{3}(?!\d))/g, "")
    .replace(/^([+-]?\d*),(\d{1,2}|\d{4,})(?!\d|,)/, "$1.$2");
  if (plain === "") return { value: null, line: null };
  try {
    // A bare number is what was typed, digit for digit: no trip through SI.
    const bare = /^[+\-−–]?[\d.]+(e[+-]?\d+)?$/i.test(plain);
    const value =
      bare || unit === ""
        ? parseNumber(plain, label, unit)
        : Number(fromSI(parseQuantity(plain, unit, label), unit).toPrecision(10));
    const outside = value < min || (value === 0 && min === 0) || (max !== undefined && value > max);
    if (outside || (whole && !Number.isInteger(value))) invalid(label, value, unit, ruleText(rule));
    return { value, line: null };
  } catch (error) {
    if (!(error instanceof InvalidInput)) throw error;
    return { value: null, line: error.message };
  }
}

function ruleText({ min, max, whole }: NumberRule): string {
  const { from, above, to, whole: wholeNumber } = words.numbers;
  const low = min > 0 ? from(formatNumber(min, 9)) : above;
  return `${whole ? `${wholeNumber}, ` : ""}${low}${max === undefined ? "" : to(formatNumber(max, 9))}`;
}
