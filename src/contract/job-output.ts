import { z } from "zod";
import { type CostFigure, costFigureWords, timeKinds, timeWords } from "#cost";
import type { PartJob } from "#report";
import { finite, finiteOrNull, share, words } from "./fields.ts";
import { out, outOrNull, tidy } from "./wire-numbers.ts";

const money = z
  .strictObject({ low: finite, middle: finite, high: finite })
  .meta({ id: "money-range", description: "exceeded in 95, 50 and 5 of 100 cases, in the currency of the job" });
const delivery = z.enum(["scanner", "hand", "robot"]);

/** The order of one part: how it is brought to the beam, how long it takes and what it costs. */
export const jobSchema = z
  .strictObject({
    delivery,
    advised: delivery.nullable().meta({ description: "null where the site allows none that the set-up offers" }),
    reasons: words,
    others: z.array(z.strictObject({ delivery, why: z.string() })),
    notes: words,
    hours_h: z.strictObject({ low: finite, middle: finite, high: finite }),
    beamRate_m2_per_h: finite.meta({ description: "with the beam on the part" }),
    orderRate_m2_per_h: finite.meta({ description: "over the whole order" }),
    times: z.array(z.strictObject({ kind: z.enum(timeKinds), name: z.string(), hours_h: finite, share })),
    currency: z.string(),
    cost_per_m2: money,
    cost_per_part: money,
    cost: money.meta({ description: "of the order" }),
    moves: z
      .array(
        z.strictObject({
          figure: z.string(),
          name: z.string(),
          unit: z.string(),
          low: finite,
          high: finite,
          cost_per_m2: z.strictObject({ atLow: finite, atHigh: finite }),
        }),
      )
      .meta({ description: "one figure at a time to its low and high end, largest swing first" }),
    breakEven: z.strictObject({
      state: z.enum(["not entered", "always", "never", "from", "up to"]),
      areaPerYear_m2: finiteOrNull,
      words: z.string(),
    }),
    payback: z
      .strictObject({ simple_years: finiteOrNull, withInterest_years: finiteOrNull, words: z.string() })
      .nullable()
      .meta({ description: "null where no area a year was given" }),
    basis: words.meta({ description: "what the figures rest on" }),
  })
  .meta({ id: "job", title: "Scourlight delivery, time and cost of an order" });

export type JobWire = z.output<typeof jobSchema>;

/** Delivery, time and cost in the units of an output. */
export function jobToWire(job: PartJob): JobWire {
  const { advice, rate, hours, cost, sensitivity, breakEven, payback, currency } = job;
  return {
    delivery: rate.delivery,
    advised: advice.delivery,
    reasons: [...advice.reasons],
    others: advice.others.map(({ delivery: other, why }) => ({ delivery: other, why })),
    notes: [...advice.notes],
    hours_h: range(hours),
    beamRate_m2_per_h: out(rate.beamRate, "m2/h"),
    orderRate_m2_per_h: out(rate.jobRate, "m2/h"),
    times: timeKinds
      .filter((kind) => rate.time[kind] > 0)
      .map((kind) => ({
        kind,
        name: timeWords[kind],
        hours_h: out(rate.time[kind], "h"),
        share: tidy(rate.shares[kind]),
      })),
    currency,
    cost_per_m2: range(cost.perArea),
    cost_per_part: range(cost.perPart),
    cost: range(cost.total),
    moves: sensitivity.rows.map((row) => ({
      figure: row.name,
      name: costFigureWords[row.name as CostFigure].name,
      unit: costFigureWords[row.name as CostFigure].unit.replace("money", currency),
      low: tidy(row.low),
      high: tidy(row.high),
      cost_per_m2: { atLow: tidy(row.resultAtLow), atHigh: tidy(row.resultAtHigh) },
    })),
    breakEven: {
      state: breakEven.state,
      areaPerYear_m2: "areaPerYear" in breakEven ? outOrNull(breakEven.areaPerYear, "m2") : null,
      words: breakEven.words,
    },
    payback: payback && {
      simple_years: outOrNull(payback.simple, ""),
      withInterest_years: outOrNull(payback.withInterest, ""),
      words: payback.words,
    },
    basis: [...job.basis],
  };
}

/** The three of a spread, money or hours. */
export function range({ low, middle, high }: { low: number; middle: number; high: number }) {
  return { low: tidy(low), middle: tidy(middle), high: tidy(high) };
}
