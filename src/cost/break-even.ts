import { formatNumber, requireFinite, requireNonNegative, requirePositive, requireShare } from "#units";
import { requireCurrency } from "./currency.ts";

/** A method that the laser is held against. Every figure is the user's own; null where nobody entered one. */
export interface OtherMethod {
  readonly name: string;
  /** money/m², everything that grows with the area */
  readonly costPerArea: number | null;
  /** money a year whether it is used or not; null counts as not entered */
  readonly costPerYear: number | null;
}

export const blankMethod: OtherMethod = { name: "", costPerArea: null, costPerYear: null };

/** The laser's side. */
export interface LaserMoney {
  readonly currency: string;
  /** money, of the set-up */
  readonly price: number;
  /** money a year of capital (annualCapital) */
  readonly costPerYear: number;
  /** money/m² without capital (jobCost runningPerArea) */
  readonly costPerArea: number;
  /** share a year, for the payback with interest */
  readonly interest: number;
  /** m² that one set-up cleans in its hours a year; null where it is not known */
  readonly areaPerYearMost: number | null;
}

export type BreakEven =
  | { readonly state: "not entered"; readonly words: string }
  | { readonly state: "always" | "never"; readonly words: string }
  | {
      /** the laser costs less from this area a year upwards, or up to it */
      readonly state: "from" | "up to";
      /** m² a year */
      readonly areaPerYear: number;
      readonly words: string;
    };

const nameOf = (other: OtherMethod): string => (other.name.trim() === "" ? "the other method" : other.name.trim());

/** The other method's figures, checked; null when one is missing. */
function entered(other: OtherMethod): { perArea: number; perYear: number } | null {
  if (other.costPerArea === null || other.costPerYear === null) return null;
  return {
    perArea: requireNonNegative("cost of the other method", other.costPerArea, "per m2"),
    perYear: requireNonNegative("yearly cost of the other method", other.costPerYear, "a year"),
  };
}

const notEntered = (other: OtherMethod): string =>
  `Not entered: what ${nameOf(other)} costs per m² and per year. Enter your own figures to compare.`;

/** Says so where one set-up does not clean as much in its year. */
function beyond({ areaPerYearMost: most }: LaserMoney, area: number): string {
  if (most === null || area <= requirePositive("area that one set-up cleans a year", most, "m2")) return "";
  return `, more than the ${formatNumber(most, 3)} m² that one set-up cleans in its hours`;
}

/**
 * Area a year at which laser and other method cost the same: A = (F − F₀)/(v₀ − v), F money a year, v money/m².
 * @param laser see LaserMoney
 * @param other see OtherMethod; blank figures give "not entered"
 * @returns state, m² a year where there is such an area, and a sentence
 * Throws InvalidInput on negative money or a currency that is none. Source: equality of two straight lines.
 */
export function breakEven(laser: LaserMoney, other: OtherMethod): BreakEven {
  requireCurrency(laser.currency);
  requireNonNegative("yearly cost of the laser", laser.costPerYear, "a year");
  requireNonNegative("cost of the laser", laser.costPerArea, "per m2");
  const theirs = entered(other);
  if (theirs === null) return { state: "not entered", words: notEntered(other) };
  const fixed = laser.costPerYear - theirs.perYear;
  const saved = theirs.perArea - laser.costPerArea;
  const area = fixed / saved;
  const shown = formatNumber(area, 3);
  const name = nameOf(other);
  if (fixed <= 0 && saved >= 0)
    return { state: "always", words: `On these figures the laser costs no more than ${name} at any area.` };
  if (fixed >= 0 && saved <= 0)
    return { state: "never", words: `On these figures the laser never costs less than ${name}.` };
  if (saved > 0)
    return {
      state: "from",
      areaPerYear: area,
      words: `On these figures the laser costs less than ${name} from ${shown} m² a year upwards${beyond(laser, area)}.`,
    };
  return {
    state: "up to",
    areaPerYear: area,
    words: `On these figures the laser costs less than ${name} up to ${shown} m² a year.`,
  };
}

export interface Payback {
  /** money saved a year, capital left out; null where nothing was entered */
  readonly saving: number | null;
  /** years without interest; null where it never pays back or nothing was entered */
  readonly simple: number | null;
  /** years with interest */
  readonly withInterest: number | null;
  readonly words: string;
}

/**
 * Years until the saving has paid the set-up: n = P/S; with interest n = −ln(1 − i·P/S)/ln(1 + i), the n at which
 * S = P·CRF(i, n). S = A·(v₀ − v) + F₀, salvage left out.
 * @param laser see LaserMoney
 * @param other see OtherMethod; blank figures give "not entered"
 * @param areaPerYear m² a year
 * @returns years, null where the saving never pays it, with a sentence
 * Throws InvalidInput on negative money, an area that is not positive or interest outside 0 to 1.
 * Source: engineering-economy tables (capital recovery solved for n).
 */
export function payback(laser: LaserMoney, other: OtherMethod, areaPerYear: number): Payback {
  requireCurrency(laser.currency);
  const price = requireNonNegative("price", laser.price);
  const interest = requireShare("interest", laser.interest);
  requireNonNegative("cost of the laser", laser.costPerArea, "per m2");
  requirePositive("area a year", areaPerYear, "m2");
  const theirs = entered(other);
  if (theirs === null) return { saving: null, simple: null, withInterest: null, words: notEntered(other) };
  const saving = requireFinite("saving", areaPerYear * (theirs.perArea - laser.costPerArea) + theirs.perYear);
  const never = `On these figures the set-up does not pay itself back against ${nameOf(other)}.`;
  if (saving <= 0) return { saving, simple: null, withInterest: null, words: never };
  const simple = price / saving;
  const share = interest * simple;
  const withInterest = share >= 1 ? null : interest === 0 ? simple : -Math.log1p(-share) / Math.log1p(interest);
  const years = (n: number): string => `${formatNumber(n, 2)} years`;
  const words =
    withInterest === null
      ? `The saving pays the price in ${years(simple)} without interest, but never the interest on it.`
      : `The saving pays the price in ${years(simple)} without interest, ${years(withInterest)} with it.`;
  return { saving, simple, withInterest, words };
}
