import { z } from "zod";

/** Parts that metals, layers and set-ups share in a file. Messages read as the rule of a refusal. */
export const word = z.string().min(1, "must not be empty").max(400, "must be 400 characters at most");
export const entryId = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, "must be lower-case words and numbers joined by hyphens")
  .max(60, "must be 60 characters at most");

/** Any number above 0 that a person could mean. */
export const above0 = z.number().positive("must be above 0");

const origin = {
  source: entryId.optional(),
  fromMemory: z.boolean().optional(),
  note: word.optional(),
};

/** What values a figure may take: above 0, a share within 0 to 1, or any sign. */
export type FigureBound = "positive" | "share" | "signed";

/**
 * What a figure of a unit can be at all: wide enough for every solid, narrow enough to catch a slip of units
 * (own judgement).
 */
const conceivable: Readonly<Record<string, readonly [low: number, high: number]>> = {
  "kg/m³": [1, 3e4],
  "W/(m·K)": [1e-3, 1e4],
  "J/(kg·K)": [10, 1e5],
  K: [50, 2e4],
  "J/kg": [1, 1e9],
  "J/mol": [1e3, 1e6],
  Pa: [1, 1e13],
  m: [1e-9, 0.1],
  "1/m": [1e-3, 1e10],
  "1/K": [1e-9, 0.1],
};

function inUnit(unit: string) {
  const range = conceivable[unit];
  if (range === undefined) return above0;
  const rule = `must be ${range[0]} to ${range[1]} ${unit}`;
  return above0.min(range[0], rule).max(range[1], rule);
}

function numberWithin(unit: string, bound: FigureBound) {
  if (bound === "signed") return z.number().min(-1e9, "must be within 1e9").max(1e9, "must be within 1e9");
  if (bound === "share") return z.number().min(0, "must be 0 to 1").max(1, "must be 0 to 1");
  return inUnit(unit);
}

/** One uncertain figure in a given unit: low <= value <= high, lognormal ranges above 0. */
export function figure(unit: string, bound: FigureBound = "positive") {
  const number = numberWithin(unit, bound);
  return z
    .strictObject({
      value: number,
      low: number,
      high: number,
      distribution: z.enum(["normal", "lognormal", "uniform", "fixed"]),
      unit: z.literal(unit),
      validRange: word,
      ...origin,
    })
    .refine((p) => p.low <= p.value && p.value <= p.high, { path: ["value"], error: "must lie from low to high" })
    .refine((p) => p.distribution !== "lognormal" || p.low > 0, {
      path: ["low"],
      error: "must be above 0 where the distribution is lognormal",
    })
    .refine((p) => p.distribution !== "fixed" || p.low === p.high, {
      path: ["high"],
      error: "must equal low where the distribution is fixed",
    });
}

/** A table over temperature in K: ascending, both lists equally long. */
export function table(unit: string) {
  return z
    .strictObject({
      temperature: z.array(inUnit("K")).min(1, "must hold at least one temperature").max(500),
      value: z.array(inUnit(unit)).max(500),
      unit: z.literal(unit),
      validRange: word,
      relativeSpread: z.number().min(0, "must be 0 to 1").max(1, "must be 0 to 1"),
      ...origin,
    })
    .refine((t) => t.temperature.length === t.value.length, {
      path: ["value"],
      error: "must hold as many numbers as temperature",
    })
    .refine((t) => t.temperature.every((x, i) => i === 0 || x > t.temperature[i - 1]!), {
      path: ["temperature"],
      error: "must rise from one to the next",
    });
}
