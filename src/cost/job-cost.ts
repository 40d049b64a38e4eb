import type { Ratio, Watt } from "#terms";
import { requireNonNegative } from "#units";
import { type CostInputs, type HourlyCost, hourlyCost } from "./cost-per-area.ts";
import { requireCurrency } from "./currency.ts";
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
  const hours = work.total / 3600;
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
