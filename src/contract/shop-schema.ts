import { z } from "zod";
import { type CostInputs, type CostRanges, exampleCostInputs, exampleCostRanges, type OtherMethod } from "#cost";
import { invalid } from "#units";
import { quantity } from "./quantity-field.ts";
import { validate } from "./validate.ts";

const money = (description: string) => z.number().min(0).max(1e9).meta({ description });
const share = (description: string) => quantity({ unit: "%", min: 0, max: 100, description });
const time = (description: string) => quantity({ unit: "s", min: 0, max: 1e7, description });
const range = z
  .tuple([z.number(), z.number()])
  .meta({ description: "low and high end, exceeded in 95 and in 5 of 100 cases" });

/** What a shop knows of its own times and money. Everything may be left out; what is, is an invented example figure. */
export const shopSchema = z
  .strictObject({
    $schema: z.string().max(500).optional(),
    note: z
      .string()
      .max(300)
      .optional()
      .meta({ description: "where the figures come from; shown beside every result" }),
    currency: z.string().max(10).optional().meta({ description: "code of three capital letters (ISO 4217)" }),
    salvage_percent: share("of the price, left at the end").optional(),
    interest_percent: share("interest a year").optional(),
    years: z.int().min(1).max(50).optional(),
    hoursPerYear_h: quantity({ unit: "h", above: 0, max: 8784, description: "paid use a year" }).optional(),
    labour_per_h: money("money for an hour of work").optional(),
    energy_per_kWh: money("price of electricity").optional(),
    auxiliaryPower_W: quantity({ unit: "W", min: 0, max: 1e6, description: "extraction, chiller, motion" }).optional(),
    consumables_per_h: money("protective windows, gas and the like").optional(),
    filters_per_h: money("filters").optional(),
    waste_per_h: money("disposal of what the filters hold").optional(),
    waste_per_m2: money("disposal that goes by area").optional(),
    handling_s: time("to place and take away one part").optional(),
    preparation_s: time("once for an order: fixture, focus, first part").optional(),
    step_s: time("to move head or part to the next field").optional(),
    programming_s: time("to program and prove a robot's path, for each kind of part").optional(),
    areaPerYear_m2: quantity({
      unit: "m2",
      above: 0,
      max: 1e9,
      description: "cleaned in a year, for break-even and payback",
    }).optional(),
    otherMethod: z
      .strictObject({
        name: z.string().max(80),
        cost_per_m2: money("all that grows with the area").nullable().default(null),
        cost_per_year: money("whether it is used or not").nullable().default(null),
      })
      .optional()
      .meta({ description: "method to compare with; its figures are yours" }),
    ranges: z
      .strictObject({
        jobTime: range.optional().meta({ description: "factor on all times, 1 at the middle" }),
        hoursPerYear_h: range.optional(),
        labour_per_h: range.optional(),
        energy_per_kWh: range.optional(),
        consumables_per_h: range.optional(),
        filters_per_h: range.optional(),
        waste_per_h: range.optional(),
      })
      .optional(),
  })
  .meta({ title: "Scourlight shop figures" });

export type ShopFile = z.output<typeof shopSchema>;

/** Times of an order that no setting knows, s. */
export interface ShopTimes {
  readonly handling: number;
  readonly preparation: number;
  readonly step: number;
  readonly programming: number;
}

/** A shop's figures in SI and money. */
export interface Shop {
  readonly inputs: CostInputs;
  readonly ranges: CostRanges;
  readonly times: ShopTimes;
  readonly other: OtherMethod;
  /** m² a year; null where it is not known */
  readonly areaPerYear: number | null;
}

/** Invented example times, to be replaced: two minutes a part, an hour for an order, four seconds a move, a day's programming. */
const exampleTimes: ShopTimes = { handling: 120, preparation: 3600, step: 4, programming: 28_800 };

/**
 * Shop figures from a file; what it leaves out is an invented example figure and the note says so.
 * Throws InvalidInputs for what does not fit and InvalidInput for a range that does not hold its figure.
 */
export function parseShop(json: unknown): Shop {
  const file = validate(shopSchema, json, "shop");
  const own = Object.keys(file).some((key) => key !== "$schema" && key !== "note");
  const inputs: CostInputs = {
    ...exampleCostInputs,
    ...defined({
      currency: file.currency,
      salvageShare: part(file.salvage_percent),
      interest: part(file.interest_percent),
      years: file.years,
      hoursPerYear: file.hoursPerYear_h,
      labour: file.labour_per_h,
      energyPrice: file.energy_per_kWh,
      auxiliaryPower: file.auxiliaryPower_W,
      consumables: file.consumables_per_h,
      filters: file.filters_per_h,
      waste: file.waste_per_h,
      wastePerArea: file.waste_per_m2,
    }),
    note:
      file.note ??
      (own ? "the shop's own figures; invented example figures where none was given" : exampleCostInputs.note),
  };
  const said = file.ranges ?? {};
  const ranges: CostRanges = {
    ...aroundOwn(inputs),
    ...defined({
      jobTime: ends("jobTime", said.jobTime, 1),
      hoursPerYear: ends("hoursPerYear", said.hoursPerYear_h, inputs.hoursPerYear),
      labour: ends("labour", said.labour_per_h, inputs.labour),
      energyPrice: ends("energy", said.energy_per_kWh, inputs.energyPrice),
      consumables: ends("consumables", said.consumables_per_h, inputs.consumables),
      filters: ends("filters", said.filters_per_h, inputs.filters),
      waste: ends("waste", said.waste_per_h, inputs.waste),
    }),
  };
  return {
    inputs,
    ranges,
    times: {
      ...exampleTimes,
      ...defined({
        handling: file.handling_s,
        preparation: file.preparation_s,
        step: file.step_s,
        programming: file.programming_s,
      }),
    },
    other: {
      name: file.otherMethod?.name ?? "",
      costPerArea: file.otherMethod?.cost_per_m2 ?? null,
      costPerYear: file.otherMethod?.cost_per_year ?? null,
    },
    areaPerYear: file.areaPerYear_m2 ?? null,
  };
}

/** Example figures all through. */
export const exampleShop = (): Shop => parseShop({});

const part = (percent: number | undefined): number | undefined => (percent === undefined ? undefined : percent / 100);

/** The entries that are there. */
function defined<T extends object>(values: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as never;
}

function ends(name: string, pair: readonly [number, number] | undefined, middle: number) {
  if (pair === undefined) return undefined;
  const [low, high] = pair;
  if (!(low <= middle && middle <= high))
    invalid(`range of ${name}`, `${low} to ${high}`, "", `must hold the figure itself, ${middle}`);
  return { low, high };
}

/** The example's spreads as shares of the figures, so that they go along with a shop's own. */
function aroundOwn(inputs: CostInputs): CostRanges {
  const scaled = Object.entries(exampleCostRanges).map(([name, { low, high }]) => {
    if (name === "jobTime") return [name, { low, high }];
    const example = exampleCostInputs[name as keyof CostInputs] as number;
    const own = inputs[name as keyof CostInputs] as number;
    return [name, { low: (low * own) / example, high: (high * own) / example }];
  });
  return Object.fromEntries(scaled) as CostRanges;
}
