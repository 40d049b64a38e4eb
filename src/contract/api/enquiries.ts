import { z } from "zod";
import { enquirySchema } from "../enquiry-schema.ts";
import { sampleSchema } from "../sample-wire.ts";
import { shopSchema } from "../shop-schema.ts";
import { fromVersionField, savedAtField, versionField } from "./shared.ts";

const enquiry = enquirySchema.meta({ ...enquirySchema.meta(), id: "enquiry" });
const shop = shopSchema.meta({ ...shopSchema.meta(), id: "shop" });
const sampleFile = sampleSchema.meta({ ...sampleSchema.meta(), id: "sample" });

export const enquiryRecordSchema = z.strictObject({
  id: z.string(),
  version: versionField,
  savedAt: savedAtField,
  enquiry,
});
export type EnquiryRecordWire = z.output<typeof enquiryRecordSchema>;

export const enquiryListSchema = z.strictObject({
  enquiries: z.array(
    enquiryRecordSchema.extend({
      trials: z.int().meta({ description: "number of them" }),
      outcomes: z.int().meta({ description: "patches that were graded, by grader" }),
      answers: z.int().meta({ description: "number of them" }),
      lasers: z.array(z.string()).meta({ description: "set-ups that trials were planned on" }),
      names: z.array(z.string()).meta({ description: "of its metals, layers and tried set-ups, to search by" }),
    }),
  ),
});
export type EnquiryListWire = z.output<typeof enquiryListSchema>;

export const enquiryPutSchema = z.object({ version: fromVersionField, enquiry });

/** A sample in SI, as the pages hold it. */
const sample = z
  .strictObject({
    id: z.string(),
    enquiryId: z.string(),
    partId: z.string(),
    label: z.string(),
    received: z.string().nullable(),
    returned: z.string().nullable(),
    conditionPhoto: z.string().nullable(),
    thicknessMap: z.array(z.strictObject({ x: z.number(), y: z.number(), thickness: z.number() })),
    untouchedWitnessKept: z.boolean().nullable(),
    note: z.string(),
  })
  .meta({ id: "sample-si", description: "a sample with lengths in m" });

export const sampleListSchema = z.strictObject({ samples: z.array(sample) });
export const samplePutSchema = z.object({
  sample: z.union([sampleFile, sample]).meta({ description: "as in a file, or in SI" }),
});

export const shopVersionSchema = z.strictObject({
  version: z.int().min(0).meta({ description: "0 while nobody entered any figure" }),
  savedAt: savedAtField.nullable(),
  shop,
});
export type ShopVersionWire = z.output<typeof shopVersionSchema>;
export const shopPutSchema = z.object({ version: fromVersionField, shop });

/** What was saved under an enquiry, of whatever kind. */
export const logbookSchema = z.strictObject({
  lines: z.array(
    z.strictObject({
      savedAt: savedAtField,
      what: z.string().meta({ description: "kind of the record, outcomes or answer" }),
      id: z.string().meta({ description: "of the record, the trial of the outcomes, or the answer" }),
      version: z.int().nullable(),
      count: z.int().nullable().meta({ description: "outcomes saved together" }),
      grader: z.string().nullable(),
    }),
  ),
  more: z.boolean().meta({ description: "whether older lines were left off" }),
});
export type LogbookWire = z.output<typeof logbookSchema>;
