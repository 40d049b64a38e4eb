import { z } from "zod";
import type { Stack } from "#terms";
import { finite, share, words } from "./fields.ts";
import { settingSchema } from "./setting-schema.ts";
import { out } from "./wire-numbers.ts";

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

/** What a page of the archive shows of a trial besides. */
const archiveTrialSchema = likeTrialSchema.extend({
  likeness: share.nullable().meta({ description: "null where nothing was asked and the newest come first" }),
  title: z.string().nullable().meta({ description: "of the enquiry; null where it is not kept" }),
  partName: z.string().nullable(),
  stackWords: z.string().meta({ description: "coat and metal in words" }),
  layers: z
    .array(z.strictObject({ kind: z.string(), colour: z.string(), thickness_um: finite }))
    .meta({ description: "the likeliest stack, from the top down to the metal" }),
  laserName: z.string().nullable().meta({ description: "null where the library has lost the set-up" }),
  savedAt: z.string().nullable().meta({ description: "when the trial was last saved, ISO 8601" }),
  cautions: words.meta({ description: "those of this trial's setting, coat and set-up" }),
});

/** What the archive answers: one page of hits. */
export const archiveSchema = likeSchema
  .extend({
    question: z.string().nullable().meta({
      description: "as it was understood; null where nothing was asked, or nothing in it names anything of the library",
    }),
    near: z.int().meta({ description: "alike enough to be shown, on all pages" }),
    offset: z.int(),
    trials: z.array(archiveTrialSchema),
  })
  .meta({ title: "Scourlight page of the archive" });

export type ArchiveWire = z.output<typeof archiveSchema>;

/** Layers of a stack as a page of the archive draws them. */
export const layersToWire = ({ layers }: Stack): ArchiveWire["trials"][number]["layers"] =>
  layers.map((l) => ({ kind: l.kind.id, colour: l.colour, thickness_um: out(l.thickness.value, "um") }));
