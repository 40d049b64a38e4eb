import { z } from "zod";
import type { ProfileRange } from "#window";
import { finite, finiteOrNull, share, words } from "./fields.ts";
import { out, tidy } from "./wire-numbers.ts";

const rangeSchema = z
  .strictObject({ value: finite, low: finiteOrNull, high: finiteOrNull })
  .meta({ description: "95 % by the likelihood ratio; null where the sites set no bound on that side" });

/** What `threshold --json` prints: levels in the unit of the file. */
export const thresholdSchema = z
  .strictObject({
    unit: z.string(),
    scale: z.enum(["log", "linear"]),
    sites: z.int(),
    damaged: z.int(),
    split: z
      .strictObject({
        low: finite,
        high: finite,
        firth: z.strictObject({ middle: finite, spread: finite }).nullable(),
      })
      .nullable()
      .meta({ description: "where no level shows both outcomes: the threshold lies between these" }),
    middle: rangeSchema.nullable().meta({ description: "half of the sites damaged" }),
    spread: rangeSchema
      .nullable()
      .meta({ description: "of the probit, in the unit, or of ln level where scale is log" }),
    onePercent: rangeSchema.nullable().meta({ description: "1 % damaged, by probit" }),
    onePercentOtherCurves: z.strictObject({ slowTail: finite, fastTail: finite }).nullable(),
    lowest: z.strictObject({ level: finite, sites: z.int(), damaged: z.int(), damagedUpper95: share }),
    cautions: words,
  })
  .meta({ title: "Scourlight threshold of a go/no-go test" });

export type ThresholdWire = z.output<typeof thresholdSchema>;

/** A range in SI, or of logarithms of SI values, in the unit of the file. */
export function rangeToWire(range: ProfileRange, unit: string, scale: "log" | "linear"): z.output<typeof rangeSchema> {
  const one = (value: number): number => out(scale === "log" ? Math.exp(value) : value, unit);
  return {
    value: one(range.value),
    low: range.low === null ? null : one(range.low),
    high: range.high === null ? null : one(range.high),
  };
}

/** A spread: a difference, or one of logarithms, which has no unit. */
export function spreadToWire(range: ProfileRange, unit: string, scale: "log" | "linear"): z.output<typeof rangeSchema> {
  const one = (value: number): number => (scale === "log" ? tidy(value) : out(value, unit));
  return {
    value: one(range.value),
    low: range.low === null ? null : one(range.low),
    high: range.high === null ? null : one(range.high),
  };
}
