import { z } from "zod";
import { finite, share, words } from "./fields.ts";
import { settingSchema } from "./setting-schema.ts";

const likeTrialSchema = z.strictObject({
  trial: z.string(),
  enquiry: z.string(),
  part: z.string(),
  laser: z.string(),
  likeness: share,
  words: words.meta({ description: "why it is like or unlike what was asked for" }),
  burnedOn: z.string().meta({ description: "coat, metal and set-up in words" }),
  planned: z.int().nullable().meta({ description: "patches of the plan; null where the trial itself is not kept" }),
  graded: z.int().nullable(),
  clean: z.int().nullable().meta({ description: "patches within the residue accepted; null where no limit is kept" }),
  damaged: z.int().nullable().meta({ description: "patches beyond the metal condition accepted" }),
  recommended: z
    .strictObject({ setting: settingSchema, proven: z.boolean(), from: z.enum(["belief", "answer"]) })
    .nullable()
    .meta({ description: "the setting recommended then; never one for another job" }),
  noWindow: z.boolean().meta({ description: "true where it was evaluated and no window was found" }),
  learnt: z
    .array(z.strictObject({ coordinate: z.string(), mean: finite, spread: finite }))
    .meta({ description: "what stands out of its belief; mean 0 and spread 1: nothing beyond the library" }),
});

/** What `like --json` prints. */
export const likeSchema = z
  .strictObject({
    question: z.string(),
    ignored: words.meta({ description: "words of the question that mean nothing to the library" }),
    compared: z.int(),
    notCompared: z.int().meta({ description: "trials kept without their enquiry and without a belief" }),
    trials: z.array(likeTrialSchema),
    cautions: words,
    modelVersion: z.string(),
  })
  .meta({ title: "Scourlight trials by likeness" });

export type LikeWire = z.output<typeof likeSchema>;
