import type { LaserSetup, Ratio, Watt } from "#terms";
import { requireInteger, requireNonNegative, requirePositive } from "#units";
import type { LaserMoney } from "./break-even.ts";
import { annualCapital } from "./capital.ts";
import { type CostInputs, type HourlyCost, hourlyCost } from "./cost-per-area.ts";
import { currencyNote, requireCurrency } from "./currency.ts";
import type { JobRate } from "./job-rate.ts";

/** An order with all that its cost follows from. Money in one currency, inputs.currency. */
export interface CostCase {
  /** money, of the set-up */
  readonly price: number;
  /** W of light with the beam on */
  readonly meanPower: Watt;
  readonly wallPlugEfficiency: Ratio;
  /** its workingTime is not read: the share of beam time comes from `work` */
  readonly inputs: CostInputs;
  readonly work: Pick<JobRate, "area" | "count" | "total" | "time">;
}

export interface JobCost {
  readonly currency: string;
  /** money for the order by what it is spent on */
  readonly spent: HourlyCost;
  /** money */
  readonly total: number;
  /** money/m² */
  readonly perArea: number;
  /** money for one part */
  readonly perPart: number;
  /** money/m² that each further square metre costs: all but capital */
  readonly runningPerArea: number;
  readonly note: string;
}

/**
 * Cost of an order: hourly cost·hours + waste per area·area, where the laser draws power only while the beam is on.
 * @param given see CostCase
 * @returns money in given.inputs.currency
 * Throws InvalidInput on negative money, empty hours or a currency that is none, and as hourlyCost. Source: definition.
 */
export function jobCost(given: CostCase): JobCost {
  const { inputs, work } = given;
  const currency = requireCurrency(inputs.currency);
  const hours = requirePositive("time of the order", work.total, "s") / 3600;
  requirePositive("area", work.area, "m2");
  requireInteger("count", work.count, 1);
  const hour = hourlyCost(given.price, given.meanPower, given.wallPlugEfficiency, {
    ...inputs,
    workingTime: work.time.beam / work.total,
  });
  const byArea = requireNonNegative("waste", inputs.wastePerArea ?? 0, "per m2") * work.area;
  const spent: HourlyCost = {
    capital: hour.capital * hours,
    labour: hour.labour * hours,
    energy: hour.energy * hours,
    consumables: hour.consumables * hours,
    filters: hour.filters * hours,
    waste: hour.waste * hours + byArea,
  };
  const total = Object.values(spent).reduce((sum, money) => sum + money, 0);
  return {
    currency,
    spent,
    total,
    perArea: total / work.area,
    perPart: total / work.count,
    runningPerArea: (total - spent.capital) / work.area,
    note: inputs.note,
  };
}

/**
 * The case of an order on a set-up: price at the middle of its range (the range itself: setup.price).
 * @param setup price range and wall-plug efficiency are read
 * @param meanPower W with the beam on (#beam beamState)
 * @param inputs the shop's figures
 * @param work scanRate, handRate or robotRate of the order
 * @returns see CostCase; the note says so where the price is in another currency
 */
export function costCaseOf(setup: LaserSetup, meanPower: Watt, inputs: CostInputs, work: CostCase["work"]): CostCase {
  return {
    price: (setup.price.low + setup.price.high) / 2,
    meanPower,
    wallPlugEfficiency: setup.wallPlugEfficiency,
    inputs: { ...inputs, note: currencyNote(inputs.note, inputs.currency, setup.price.currency) },
    work,
  };
}

/**
 * The laser's side of a comparison, from one order taken as typical of the year.
 * @param given see CostCase
 * @returns money, money a year, money/m², m² a year that one set-up cleans in its hours a year
 * Throws InvalidInput as jobCost. Source: definition.
 */
export function laserMoney(given: CostCase): LaserMoney {
  const { price, inputs, work } = given;
  const { currency, runningPerArea } = jobCost(given);
  return {
    currency,
    price,
    costPerYear: annualCapital(price, price * inputs.salvageShare, inputs.interest, inputs.years),
    costPerArea: runningPerArea,
    interest: inputs.interest,
    areaPerYearMost: (inputs.hoursPerYear * 3600 * work.area) / work.total,
  };
}
