import type { CostInputs } from "./cost-per-area.ts";
import { type CostCase, jobCost } from "./job-cost.ts";
import type { JobRate } from "./job-rate.ts";
import { type Range, type Ranges, statedAround } from "./order-hours.ts";
import { type Sensitivity, sensitivity } from "./sensitivity.ts";
import { type ResultSpread, spreadOf } from "./spread-of.ts";
import type { Stated } from "./stated.ts";

/** Figures of a cost that may have a spread. The years of use are a decision and have none. */
export interface CostFigures extends Omit<CostInputs, "currency" | "note" | "years" | "workingTime"> {
  readonly price: number;
  readonly meanPower: number;
  readonly wallPlugEfficiency: number;
  /** factor on all times of the order, 1 at the middle */
  readonly jobTime: number;
}
export type CostFigure = keyof CostFigures;
export type CostRanges = Ranges<CostFigures>;

/** Names of the figures for people; the unit follows after the currency. */
export const costFigureWords: Readonly<Record<CostFigure, { readonly name: string; readonly unit: string }>> = {
  price: { name: "price of the set-up", unit: "money" },
  meanPower: { name: "mean power", unit: "W" },
  wallPlugEfficiency: { name: "wall-plug efficiency", unit: "" },
  jobTime: { name: "time the order takes", unit: "×" },
  salvageShare: { name: "share of the price left at the end", unit: "" },
  interest: { name: "interest a year", unit: "" },
  hoursPerYear: { name: "hours of use a year", unit: "h" },
  labour: { name: "labour", unit: "money/h" },
  energyPrice: { name: "price of electricity", unit: "money/kWh" },
  auxiliaryPower: { name: "power of extraction, chiller, motion", unit: "W" },
  consumables: { name: "consumables", unit: "money/h" },
  filters: { name: "filters", unit: "money/h" },
  waste: { name: "waste by time", unit: "money/h" },
  wastePerArea: { name: "waste by area", unit: "money/m²" },
};

/** Ranges around exampleCostInputs. Invented example figures, replace with your own. */
export const exampleCostRanges: CostRanges = {
  jobTime: { low: 0.75, high: 1.4 },
  hoursPerYear: { low: 700, high: 1700 },
  labour: { low: 42, high: 62 },
  energyPrice: { low: 0.18, high: 0.35 },
  consumables: { low: 1, high: 4 },
  filters: { low: 1.5, high: 6 },
  waste: { low: 0.5, high: 2 },
};

/**
 * Hours of an order with their spread (orderHours) as the range of jobTime.
 * @param hours h
 * @param work the same order at the middle of its figures
 * @returns factors on the time, low at most 1, high at least 1
 */
export function jobTimeRange(hours: ResultSpread, work: Pick<JobRate, "hours">): Range {
  return { low: Math.min(1, hours.low / work.hours), high: Math.max(1, hours.high / work.hours) };
}

const SHARES: readonly CostFigure[] = ["salvageShare", "wallPlugEfficiency"];

function figuresOf(given: CostCase): CostFigures {
  const { currency: _, note: __, years: ___, workingTime: ____, ...inputs } = given.inputs;
  const { price, meanPower, wallPlugEfficiency } = given;
  return { ...inputs, price, meanPower, wallPlugEfficiency, jobTime: 1 };
}

function withFigures(given: CostCase, values: Readonly<Record<string, number>>): CostCase {
  const { price, meanPower, wallPlugEfficiency, jobTime = 1, ...inputs } = values;
  const { work } = given;
  return {
    price: price ?? given.price,
    meanPower: meanPower ?? given.meanPower,
    wallPlugEfficiency: wallPlugEfficiency ?? given.wallPlugEfficiency,
    inputs: { ...given.inputs, ...inputs },
    work: { ...work, total: work.total * jobTime, time: { ...work.time, beam: work.time.beam * jobTime } },
  };
}

const perAreaOf =
  (given: CostCase) =>
  (values: Readonly<Record<string, number>>): number =>
    jobCost(withFigures(given, values)).perArea;

const stated = (given: CostCase, ranges: CostRanges): Record<string, Stated> =>
  statedAround(figuresOf(given), ranges, SHARES);

/** money: 5, 50 and 95 of 100 cases */
export interface CostSpread {
  readonly perArea: ResultSpread;
  readonly perPart: ResultSpread;
  readonly total: ResultSpread;
}

/**
 * Spread of an order's cost from the stated spreads of its figures (model: see spreadOf).
 * @param given the case at the middle of its figures
 * @param ranges low and high ends by figure; what is not named is taken as exact
 * @returns money/m², money a part, money
 * Throws InvalidInput on a range that does not hold its figure, and as jobCost. Source: see spreadOf.
 */
export function costSpread(given: CostCase, ranges: CostRanges): CostSpread {
  const perArea = spreadOf(stated(given, ranges), perAreaOf(given));
  const times = (factor: number): ResultSpread => ({
    ...perArea,
    low: perArea.low * factor,
    middle: perArea.middle * factor,
    high: perArea.high * factor,
  });
  return { perArea, perPart: times(given.work.area / given.work.count), total: times(given.work.area) };
}

/**
 * Cost per area with one figure at a time at its low and high end, largest swing first.
 * @param given the case at the middle of its figures
 * @param ranges low and high ends by figure
 * @returns money/m²
 * Throws InvalidInput as costSpread. Source: definition of one-at-a-time sensitivity.
 */
export function costSensitivity(given: CostCase, ranges: CostRanges): Sensitivity {
  return sensitivity(stated(given, ranges), perAreaOf(given));
}
