import { z } from "zod";
import { gradingSchema } from "../grading-wire.ts";
import { outcomeSchema } from "../outcome-wire.ts";
import { gateSchema } from "../reading-wire.ts";
import { sha256Field } from "../sample-wire.ts";
import { trialSchema } from "../trial-wire.ts";
import { fromVersionField, savedAtField, versionField } from "./shared.ts";

export const trialListSchema = z.strictObject({
  trials: z.array(z.strictObject({ trial: trialSchema, savedAt: savedAtField, outcomes: z.array(outcomeSchema) })),
});
export type TrialListWire = z.output<typeof trialListSchema>;

export const trialBodySchema = z.strictObject({ trial: trialSchema });
export const trialPutSchema = z.object({
  trial: trialSchema,
  version: z
    .int()
    .min(0)
    .optional()
    .meta({ description: "the version that was read, 0 for a new trial; left out: whatever is kept" }),
});
export const outcomesPutSchema = z.object({ outcomes: z.array(outcomeSchema).max(10_000) });

export const recordedSchema = z.strictObject({
  accepted: z.int().meta({ description: "rows that are kept" }),
  refused: z.array(
    z.strictObject({
      line: z.int().meta({ description: "of the table, or place in the list, from 1" }),
      error: z.string(),
    }),
  ),
});
export type RecordedWire = z.output<typeof recordedSchema>;

export const gradingRecordSchema = z.strictObject({
  version: versionField,
  savedAt: savedAtField,
  grading: gradingSchema,
});
export type GradingRecordWire = z.output<typeof gradingRecordSchema>;
export const gradingListSchema = z.strictObject({ gradings: z.array(gradingRecordSchema) });
export const gradingPutSchema = z.object({ version: fromVersionField, grading: gradingSchema });

/** What the reading of photographs is asked for. */
export const gradeAskSchema = z.strictObject({
  photos: z
    .array(z.strictObject({ name: z.string().min(1).max(300), sha256: sha256Field }))
    .min(1)
    .max(100)
    .meta({ description: "kept photographs, each once" }),
  printScale: z
    .number()
    .min(0.9)
    .max(1.1)
    .optional()
    .meta({ description: "measured over nominal length of the ruler" }),
  greys: z.array(z.number().min(0).max(100)).length(7).optional().meta({ description: "L* of the printed greys" }),
});

export const gradedSchema = z.strictObject({
  gradings: z.array(gradingSchema),
  unread: z.array(z.strictObject({ name: z.string(), gates: z.array(gateSchema) })),
  refused: z.array(z.strictObject({ name: z.string(), error: z.string() })),
});
export type GradedWire = z.output<typeof gradedSchema>;

export const outcomeListSchema = z.strictObject({ outcomes: z.array(outcomeSchema) });

/** How much of an archive was not there before. */
export const archiveAddedSchema = z.strictObject({
  trial: z.string(),
  versions: z.int().meta({ description: "of records" }),
  outcomes: z.int(),
  answers: z.int(),
  photos: z.int(),
});
export type ArchiveAddedWire = z.output<typeof archiveAddedSchema>;
