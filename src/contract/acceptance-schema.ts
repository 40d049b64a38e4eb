import { z } from "zod";
import type { AcceptanceTestKind } from "#terms";
import { lineField, metalConditionField } from "./fields.ts";
import { quantity } from "./quantity-field.ts";

/** Standard or usual method of each acceptance test, used where a file names none. */
export const usualMethod: Readonly<Record<AcceptanceTestKind, string>> = {
  profile: "ISO 8503-5",
  salts: "ISO 8502-6 and ISO 8502-9",
  dust: "ISO 8502-3",
  "water-break": "ASTM F22",
  "pull-off": "ISO 4624",
  "cross-cut": "ISO 2409",
  "contact-resistance": "four-wire resistance",
  hardness: "ISO 6507-1",
  "weld-porosity": "ISO 17636-1 judged to ISO 5817",
  "dimension-loss": "micrometer before and after",
  "flash-rust": "looked at after the hours stated",
};

export const testKinds = Object.keys(usualMethod) as AcceptanceTestKind[];

const kind = z.enum(testKinds as [AcceptanceTestKind, ...AcceptanceTestKind[]]);
const limit = lineField.meta({ description: 'limit in words with its unit, for example "at least 5 MPa"' });
const value = lineField.nullable().meta({ description: "measured value in words" });
const passed = z.boolean().nullable();

export const acceptanceTestSchema = z
  .strictObject({
    kind,
    method: lineField.optional().meta({ description: "standard or method; left out: the usual one" }),
    limit: limit.default(""),
    value: value.default(null),
    passed: passed.default(null),
  })
  .transform((test) => ({ ...test, method: test.method ?? usualMethod[test.kind] }))
  .pipe(z.strictObject({ kind, method: lineField, limit, value, passed }));

/** What the customer accepts. Defaults are common practice, no source: 5 % residue, discolouring allowed, 80 % sure. */
export const acceptanceSchema = z.strictObject({
  residueMax_percent: quantity({
    unit: "%",
    min: 0,
    max: 100,
    description: "largest share of area with residue",
  }).default(5),
  metalConditionMax: metalConditionField.default(1),
  metalTemperatureMax_degC: quantity({ unit: "degC", min: 30, max: 3500 }).nullable().default(null),
  tests: z.array(acceptanceTestSchema).max(50).default([]),
  confidence_percent: quantity({
    unit: "%",
    min: 50,
    max: 99,
    description: "share of the draws in which a recommended setting must hold; 95 for thin or costly parts",
  }).default(80),
});
