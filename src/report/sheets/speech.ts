import { formatNumber, formatQuantity, fromSI, requireFinite, unitLabel } from "#units";
import type { Language } from "./language.ts";
import { wordsOf } from "./words.ts";
import type { Words } from "./words-shape.ts";

/** Numbers and words of one language. */
export interface Speech {
  readonly language: Language;
  readonly words: Words;
  /** a figure to `digits` significant digits; throws InvalidInput when it is not finite */
  readonly quantity: (name: string, valueSI: number, unit: string, digits?: number) => string;
  /** two figures of one unit */
  readonly range: (name: string, lowSI: number, highSI: number, unit: string, digits?: number) => string;
  /** a figure of a setting, to the last digit that the run sheet file has, without its unit */
  readonly exact: (name: string, valueSI: number, unit: string) => string;
  /** exact, with its unit */
  readonly exactQuantity: (name: string, valueSI: number, unit: string) => string;
}

/** Numbers with a decimal point in English and a decimal comma in German; SI in, the unit named out. */
export function speechOf(language: Language): Speech {
  const words = wordsOf(language);
  const point = (figure: string): string => (language === "de" ? figure.replace(/(\d)\.(?=\d)/g, "$1,") : figure);
  const exact = (name: string, valueSI: number, unit: string): string => {
    requireFinite(name, valueSI, "");
    // twelve digits are free of the dirt of binary fractions, as in the files
    const value = Number((unit === "" ? valueSI : fromSI(valueSI, unit)).toPrecision(12)) + 0;
    return point(String(value).replace(/^-/, "−"));
  };
  return {
    language,
    words,
    quantity: (name, valueSI, unit, digits = 3) => {
      requireFinite(name, valueSI, "");
      return point(formatQuantity(valueSI, unit, digits));
    },
    range: (name, lowSI, highSI, unit, digits = 3) => {
      const show = (value: number): string => point(formatNumber(fromSI(requireFinite(name, value, ""), unit), digits));
      return `${show(lowSI)} ${words.common.to} ${show(highSI)} ${unitLabel(unit)}`;
    },
    exact,
    exactQuantity: (name, valueSI, unit) => `${exact(name, valueSI, unit)} ${unitLabel(unit)}`,
  };
}
