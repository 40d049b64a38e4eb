import { z } from "zod";
import type { EnquiryAnswer, PartAnswer } from "#terms";
import {
  adviceSchema,
  adviceToWire,
  comparisonSchema,
  comparisonToWire,
  triageSchema,
  triageToWire,
} from "./comparison-output.ts";
import { words } from "./fields.ts";
import { outcomeSchema, outcomeToWire } from "./outcome-wire.ts";
import { trialSchema, trialToWire } from "./trial-wire.ts";
import { type CautionsOf, verdictSchema, verdictToWire } from "./verdict-output.ts";
import { windowSchema, windowToWire } from "./window-output.ts";

const partAnswerSchema = z.strictObject({
  part: z.string(),
  name: z.string(),
  material: z.string(),
  unknowns: words,
  assumptions: words,
  triage: triageSchema,
  verdicts: z.array(verdictSchema),
  comparison: comparisonSchema.nullable(),
  advice: z.array(adviceSchema),
  trials: z.array(
    z.strictObject({ trial: trialSchema, outcomes: z.array(outcomeSchema), window: windowSchema.nullable() }),
  ),
});

/** What `job --json` prints and the store keeps as an answer. */
export const answerSchema = z
  .strictObject({
    enquiry: z.string(),
    title: z.string(),
    invented: z.boolean(),
    parts: z.array(partAnswerSchema),
    seed: z.int(),
    drawCount: z.int(),
    modelVersion: z.string(),
  })
  .meta({ title: "Scourlight answer to an enquiry" });

export type AnswerWire = z.output<typeof answerSchema>;

function partAnswerToWire(
  answer: PartAnswer,
  cautionsOf: CautionsOf,
  modelVersion: string,
): AnswerWire["parts"][number] {
  const { part } = answer;
  return {
    part: part.id,
    name: part.name,
    material: part.material,
    unknowns: [...part.unknowns],
    assumptions: [...(part.assumptions ?? [])],
    triage: triageToWire(answer.triage),
    verdicts: answer.verdicts.map((v) => verdictToWire(v, cautionsOf)),
    comparison: answer.comparison === null ? null : comparisonToWire(answer.comparison, cautionsOf),
    advice: answer.advice.map(adviceToWire),
    trials: answer.trials.map(({ trial, outcomes, window }) => {
      const about = { laser: trial.setupId, trial: trial.id, modelVersion };
      const cautions = cautionsOf(trial.setupId);
      return {
        trial: trialToWire(trial, cautions),
        outcomes: outcomes.map(outcomeToWire),
        window: window === null ? null : windowToWire(window, about, cautions),
      };
    }),
  };
}

/** A whole answer in the units of its output. The draws behind each prediction are left out. */
export function answerToWire(answer: EnquiryAnswer, cautionsOf: (partId: string) => CautionsOf): AnswerWire {
  return {
    enquiry: answer.enquiry.id,
    title: answer.enquiry.title,
    invented: answer.enquiry.invented,
    parts: answer.parts.map((p) => partAnswerToWire(p, cautionsOf(p.part.id), answer.modelVersion)),
    seed: answer.seed,
    drawCount: answer.drawCount,
    modelVersion: answer.modelVersion,
  };
}
