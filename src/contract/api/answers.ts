import { z } from "zod";
import { detailsSchema } from "../details-output.ts";
import { savedAtField } from "./shared.ts";

const details = detailsSchema.meta({ ...detailsSchema.meta(), id: "details" });

/** What an answer may be asked for besides the enquiry. */
export const answerAskSchema = z.strictObject({
  seed: z
    .int()
    .min(0)
    .max(2 ** 31)
    .default(1)
    .meta({ description: "of the draws" }),
  draws: z.int().min(8).max(4096).optional().meta({ description: "versions of the physics; 64 when left out" }),
});

export const answerLineSchema = z.strictObject({
  id: z.string(),
  savedAt: savedAtField,
  modelVersion: z.string(),
  enquiryVersion: z.int(),
});
export type AnswerLineWire = z.output<typeof answerLineSchema>;

const changedAt = z
  .string()
  .nullable()
  .meta({ description: "when anything that an answer stands on was last saved; null where that is not known" });

export const answerListSchema = z.strictObject({ answers: z.array(answerLineSchema), changedAt });
export type AnswerListWire = z.output<typeof answerListSchema>;

export const answerDetailsSchema = z.strictObject({
  id: z.string(),
  seed: z.int().nullable().meta({ description: "of the draws" }),
  draws: z.int().nullable().meta({ description: "versions of the physics behind it" }),
  shopVersion: z.int().meta({ description: "version of the shop figures behind it; 0: invented example figures" }),
  changedAt,
  details,
});
export type AnswerDetailsWire = z.output<typeof answerDetailsSchema>;
