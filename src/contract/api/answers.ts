import { z } from "zod";
import { detailsSchema } from "../details-output.ts";
import { savedAtField } from "./shared.ts";

const details = detailsSchema.meta({ ...detailsSchema.meta(), id: "details" });

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
  shopVersion: z.int().meta({ description: "version of the shop figures behind it; 0: invented example figures" }),
  changedAt,
  details,
});
export type AnswerDetailsWire = z.output<typeof answerDetailsSchema>;
