import { z } from "zod";
import type { Comparison, MeasurementAdvice, SetupVerdict, Triage } from "#terms";
import { finite, share, words } from "./fields.ts";
import { type CautionsOf, verdictSchema, verdictToWire } from "./verdict-output.ts";
import { out, tidy } from "./wire-numbers.ts";

const side = { pulsed: verdictSchema.nullable(), continuous: verdictSchema.nullable(), sentence: z.string() };

export const comparisonSchema = z
  .strictObject({
    equalPower: z.strictObject({ meanPower_W: finite, ...side }),
    eachAtBest: z.strictObject(side),
    equal: words.meta({ description: "what was held equal" }),
    unequal: words.meta({ description: "what could not be held equal" }),
  })
  .meta({ id: "comparison", title: "Scourlight comparison of pulsed and continuous" });

export const triageSchema = z
  .strictObject({ verdict: z.enum(["likely", "trial needed", "declined"]), reasons: words })
  .meta({ title: "Scourlight triage" });

export const adviceSchema = z.strictObject({
  measurement: z.string(),
  spreadRemoved: share.meta({ description: "share of the spread of the answer that the measurement would remove" }),
  why: z.string(),
});

export type ComparisonWire = z.output<typeof comparisonSchema>;
export type TriageWire = z.output<typeof triageSchema>;
export type AdviceWire = z.output<typeof adviceSchema>;

export function comparisonToWire(comparison: Comparison, cautionsOf: CautionsOf): ComparisonWire {
  const verdict = (v: SetupVerdict | null) => (v === null ? null : verdictToWire(v, cautionsOf));
  const { equalPower, eachAtBest } = comparison;
  return {
    equalPower: {
      meanPower_W: out(equalPower.meanPower, "W"),
      pulsed: verdict(equalPower.pulsed),
      continuous: verdict(equalPower.continuous),
      sentence: equalPower.sentence,
    },
    eachAtBest: {
      pulsed: verdict(eachAtBest.pulsed),
      continuous: verdict(eachAtBest.continuous),
      sentence: eachAtBest.sentence,
    },
    equal: [...comparison.equal],
    unequal: [...comparison.unequal],
  };
}

export function triageToWire(triage: Triage): TriageWire {
  return { verdict: triage.verdict, reasons: [...triage.reasons] };
}

export function adviceToWire(advice: MeasurementAdvice): AdviceWire {
  return { measurement: advice.measurement, spreadRemoved: tidy(advice.spreadRemoved), why: advice.why };
}
