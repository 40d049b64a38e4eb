import type { LaserSetup, Ratio, Watt } from "#terms";
import { invalid, requireNonNegative, requirePositive, requireShare } from "#units";
import { annualCapital } from "./capital.ts";
import { currencyNote, requireCurrency } from "./currency.ts";
import { workingShare } from "./rate.ts";

/** What a shop knows and the tool does not. Money in one currency. */
export interface CostInputs {
  readonly currency: string;
  /** money left at the end, as a share of the price */
  readonly salvageShare: Ratio;
  readonly interest: number;
  readonly years: number;
  /** h of paid use a year */
  readonly hoursPerYear: number;
  /** money/h */
  readonly labour: number;
  /** money per kWh */
  readonly energyPrice: number;
  /** W drawn by extraction, chiller and motion while working */
  readonly auxiliaryPower: Watt;
  /** money/h, protective windows, gas and the like */
  readonly consumables: number;
  /** money/h */
  readonly filters: number;
  /** money/h of disposal of what the filters hold */
  readonly waste: number;
  /** money/m² of disposal that goes by area, 0 when not given */
  readonly wastePerArea?: number;
  /** share of the paid time with the laser at work */
  readonly workingTime: Ratio;
  /** where the figures come from; shown beside every result */
  readonly note: string;
}

/** Figures to try the sheet with. Invented example figures, replace with your own. */
export const exampleCostInputs: CostInputs = {
  currency: "EUR",
  salvageShare: 0.1,
  interest: 0.08,
  years: 7,
  hoursPerYear: 1200,
  labour: 50,
  energyPrice: 0.25,
  auxiliaryPower: 3000,
  consumables: 2,
  filters: 3,
  waste: 1,
  workingTime: 0.6,
  note: "invented example figures, replace with your own",
};

/** money/h by what it is spent on */
export interface HourlyCost {
  readonly capital: number;
  readonly labour: number;
  readonly energy: number;
  readonly consumables: number;
  readonly filters: number;
  readonly waste: number;
}

export interface CostPerArea {
  readonly currency: string;
  /** money/m² at the low, the middle and the high end of the price range */
  readonly low: number;
  readonly middle: number;
  readonly high: number;
  /** money/m² by what it is spent on, at the middle of the price range */
  readonly breakdown: HourlyCost;
  /** money per paid hour, at the middle of the price range */
  readonly hourly: HourlyCost;
  readonly note: string;
}

const PARTS = ["capital", "labour", "energy", "consumables", "filters", "waste"] as const;
const sum = (cost: HourlyCost): number => PARTS.reduce((total, part) => total + cost[part], 0);
const scaled = (cost: HourlyCost, factor: number): HourlyCost => ({
  capital: cost.capital * factor,
  labour: cost.labour * factor,
  energy: cost.energy * factor,
  consumables: cost.consumables * factor,
  filters: cost.filters * factor,
  waste: cost.waste * factor,
});

/**
 * Cost of one paid hour, money/h: annual capital/hours a year + labour + (P·working share/η + auxiliaries)·price +
 * consumables + filters + waste. The laser draws power only while it works, auxiliaries all the time.
 * @param price money, of the set-up
 * @param meanPower W of light
 * @param wallPlugEfficiency η, above 0 and up to 1
 * @param inputs see CostInputs
 * Throws InvalidInput on negative figures, empty hours or shares outside 0 to 1. Source: definition.
 */
export function hourlyCost(price: number, meanPower: Watt, wallPlugEfficiency: Ratio, inputs: CostInputs): HourlyCost {
  requirePositive("hours per year", inputs.hoursPerYear, "h");
  requireNonNegative("mean power", meanPower, "W");
  if (!(wallPlugEfficiency > 0 && wallPlugEfficiency <= 1))
    invalid("wall-plug efficiency", wallPlugEfficiency, "", "above 0 and up to 1");
  requireShare("salvage share", inputs.salvageShare);
  const watts =
    (meanPower * workingShare(inputs.workingTime)) / wallPlugEfficiency +
    requireNonNegative("auxiliary power", inputs.auxiliaryPower, "W");
  return {
    capital: annualCapital(price, price * inputs.salvageShare, inputs.interest, inputs.years) / inputs.hoursPerYear,
    labour: requireNonNegative("labour", inputs.labour, "per h"),
    energy: (watts / 1000) * requireNonNegative("energy price", inputs.energyPrice, "per kWh"),
    consumables: requireNonNegative("consumables", inputs.consumables, "per h"),
    filters: requireNonNegative("filters", inputs.filters, "per h"),
    waste: requireNonNegative("waste", inputs.waste, "per h"),
  };
}

/**
 * Cost per area: hourly cost/(area rate·share of time at work) + waste by area, over the price range of the set-up.
 * @param setup its price range and wall-plug efficiency are read
 * @param meanPower W of light at the setting
 * @param areaRate m²/s, turn-rounds included
 * @param inputs see CostInputs; exampleCostInputs are invented
 * @returns money/m² with its breakdown
 * Throws InvalidInput outside the ranges of hourlyCost or for an area rate that is not positive. Source: definition.
 */
export function costPerArea(setup: LaserSetup, meanPower: Watt, areaRate: number, inputs: CostInputs): CostPerArea {
  const perHour = requirePositive("area rate", areaRate, "m2/s") * 3600 * workingShare(inputs.workingTime);
  const at = (price: number): HourlyCost => hourlyCost(price, meanPower, setup.wallPlugEfficiency, inputs);
  const middle = at((setup.price.low + setup.price.high) / 2);
  const byArea = requireNonNegative("waste", inputs.wastePerArea ?? 0, "per m2");
  const breakdown = scaled(middle, 1 / perHour);
  return {
    currency: requireCurrency(inputs.currency),
    low: sum(at(setup.price.low)) / perHour + byArea,
    middle: sum(middle) / perHour + byArea,
    high: sum(at(setup.price.high)) / perHour + byArea,
    breakdown: { ...breakdown, waste: breakdown.waste + byArea },
    hourly: middle,
    note: currencyNote(inputs.note, inputs.currency, setup.price.currency),
  };
}
