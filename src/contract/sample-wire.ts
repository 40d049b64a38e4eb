import { z } from "zod";
import type { Sample } from "#terms";
import { finite, idField, lineField, noteField } from "./fields.ts";
import { validate } from "./validate.ts";
import { into, out } from "./wire-numbers.ts";

/** A day, or a day and time, as ISO 8601 writes it. */
const dayField = z
  .string()
  .regex(/^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])(T\d{2}:\d{2}(:\d{2}(\.\d+)?)?(Z|[+-]\d{2}:\d{2})?)?$/, {
    error: "must be a date such as 2026-03-31",
  });

export const sha256Field = z.string().regex(/^[0-9a-f]{64}$/, { error: "must be a sha256 in 64 hexadecimal digits" });

export const sampleSchema = z
  .strictObject({
    id: idField,
    enquiry: idField,
    part: idField,
    label: lineField,
    received: dayField.nullable().default(null),
    returned: dayField.nullable().default(null),
    conditionPhoto: sha256Field.nullable().default(null),
    thicknessMap: z
      .array(
        z.strictObject({
          x_mm: finite.min(0).max(1e5),
          y_mm: finite.min(0).max(1e5),
          thickness_um: finite.min(0).max(20_000),
        }),
      )
      .max(10_000)
      .default([]),
    untouchedWitnessKept: z.boolean().nullable().default(null),
    note: noteField.default(""),
  })
  .meta({ title: "Scourlight sample" });

export type SampleWire = z.output<typeof sampleSchema>;

export function sampleToWire(sample: Sample): SampleWire {
  const { enquiryId, partId, thicknessMap, ...same } = sample;
  return {
    ...same,
    enquiry: enquiryId,
    part: partId,
    thicknessMap: thicknessMap.map((r) => ({
      x_mm: out(r.x, "mm"),
      y_mm: out(r.y, "mm"),
      thickness_um: out(r.thickness, "um"),
    })),
  };
}

/** The inverse of `sampleToWire`. */
export function sampleFromWire(wire: SampleWire): Sample {
  const { enquiry, part, thicknessMap, ...same } = wire;
  return {
    ...same,
    enquiryId: enquiry,
    partId: part,
    thicknessMap: thicknessMap.map((r) => ({
      x: into(r.x_mm, "mm"),
      y: into(r.y_mm, "mm"),
      thickness: into(r.thickness_um, "um"),
    })),
  };
}

/** A sample that nobody has checked, in SI. Throws InvalidInputs. */
export function parseSample(json: unknown): Sample {
  return sampleFromWire(validate(sampleSchema, json, "sample"));
}
