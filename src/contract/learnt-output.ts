import { z } from "zod";
import type { FitChecks, LearntNumber, TrialStop } from "#terms";
import { finiteOrNull, share, spreadField, words } from "./fields.ts";
import { spreadToWire } from "./spread-wire.ts";
import { outOrNull, tidy } from "./wire-numbers.ts";

export const stopSchema = z.strictObject({
  verdict: z.enum(["go on", "recommend", "nothing found"]),
  expectedGain: finiteOrNull.meta({
    description: "expected gain in rate over the recommended setting, a share of its rate; null without one",
  }),
  bestShare: share.meta({
    description: "highest share of versions of the physics that one setting meets the acceptance in",
  }),
  words,
});

const numberSchema = z.strictObject({
  name: z.string(),
  unit: z.string().meta({ description: "of before and after; empty for a plain number" }),
  prior: spreadField,
  posterior: spreadField,
  spreadLeft: finiteOrNull.meta({ description: "share of the spread before that is left; above 1 where it grew" }),
});

export const learntSchema = z.strictObject({
  pinned: z.array(numberSchema).meta({ description: "both edges at the setting shown, and their ratio" }),
  properties: z
    .array(numberSchema)
    .meta({ description: "of the library, on the scale where the prior is standard normal; most moved first" }),
  shifts: z.array(numberSchema).meta({ description: "shapes in which the physics may be off, standard normal before" }),
  words,
});

export function stopToWire(stop: TrialStop): z.output<typeof stopSchema> {
  return {
    verdict: stop.verdict,
    expectedGain: outOrNull(stop.expectedGain, ""),
    bestShare: tidy(stop.bestShare),
    words: [...stop.words],
  };
}

/** What was learnt, in the units that each number states. */
export function learntToWire(learnt: FitChecks): z.output<typeof learntSchema> {
  const numbers = (list: readonly LearntNumber[]) =>
    list.map((n) => ({
      name: n.name,
      unit: n.unit,
      prior: spreadToWire(n.prior, ""),
      posterior: spreadToWire(n.posterior, ""),
      spreadLeft: outOrNull(n.spreadLeft, ""),
    }));
  return {
    pinned: numbers(learnt.pinned),
    properties: numbers(learnt.properties),
    shifts: numbers(learnt.shifts),
    words: [...learnt.words],
  };
}
