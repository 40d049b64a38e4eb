import { z } from "zod";
import { answerSchema } from "./answer-output.ts";
import { beamCheckSchema } from "./beam-check-output.ts";
import { beliefSchema } from "./belief-wire.ts";
import { comparisonSchema, triageSchema } from "./comparison-output.ts";
import { detailsSchema } from "./details-output.ts";
import { enquirySchema } from "./enquiry-schema.ts";
import { gradingSchema } from "./grading-wire.ts";
import { agreementSchema, gaugeStudySchema } from "./gauging-output.ts";
import { likeSchema } from "./like-output.ts";
import { outcomeSchema } from "./outcome-wire.ts";
import { pictureSchema } from "./picture-output.ts";
import { predictionSchema } from "./prediction-output.ts";
import { recordSchema } from "./record-output.ts";
import { runLogSchema } from "./run-log-wire.ts";
import { sampleSchema } from "./sample-wire.ts";
import { settingFileSchema } from "./setting-schema.ts";
import { shopRecordSchema } from "./shop-record.ts";
import { shopSchema } from "./shop-schema.ts";
import { thresholdSchema } from "./threshold-output.ts";
import { transferSchema } from "./transfer-output.ts";
import { trialSchema } from "./trial-wire.ts";
import { validate } from "./validate.ts";
import { surveySchema } from "./verdict-output.ts";
import { windowSchema } from "./window-output.ts";

/** Every published shape by the name of its file. Files that come in are described as a person may write them. */
const published = {
  enquiry: [enquirySchema, "input"],
  setting: [settingFileSchema, "input"],
  shop: [shopSchema, "input"],
  "shop-record": [shopRecordSchema, "input"],
  trial: [trialSchema, "input"],
  outcome: [outcomeSchema, "input"],
  sample: [sampleSchema, "input"],
  belief: [beliefSchema, "input"],
  grading: [gradingSchema, "input"],
  "run-log": [runLogSchema, "input"],
  prediction: [predictionSchema, "output"],
  picture: [pictureSchema, "output"],
  survey: [surveySchema, "output"],
  comparison: [comparisonSchema, "output"],
  triage: [triageSchema, "output"],
  record: [recordSchema, "output"],
  like: [likeSchema, "output"],
  window: [windowSchema, "output"],
  transfer: [transferSchema, "output"],
  answer: [answerSchema, "output"],
  details: [detailsSchema, "output"],
  "beam-check": [beamCheckSchema, "output"],
  "gauge-study": [gaugeStudySchema, "output"],
  agreement: [agreementSchema, "output"],
  threshold: [thresholdSchema, "output"],
} as const satisfies Record<string, readonly [z.ZodType, "input" | "output"]>;

export type PublishedSchema = keyof typeof published;
export const publishedSchemas = Object.keys(published) as PublishedSchema[];

/** Checks a value that should have a published shape. `root` names it in the lines of a refusal. Throws InvalidInputs. */
export function validatePublished<N extends PublishedSchema>(
  name: N,
  value: unknown,
  root: string,
): z.output<(typeof published)[N][0]> {
  return validate(published[name][0], value, root) as z.output<(typeof published)[N][0]>;
}

/** One shape as JSON Schema (draft 2020-12). */
export function jsonSchema(name: PublishedSchema): Record<string, unknown> {
  const [schema, io] = published[name];
  return { ...z.toJSONSchema(schema, { io, unrepresentable: "throw" }) };
}

/** Text of the schema file, the same on every machine. */
export function jsonSchemaText(name: PublishedSchema): string {
  return `${JSON.stringify(jsonSchema(name), null, 2)}\n`;
}
