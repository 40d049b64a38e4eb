import { z } from "zod";
import type { RunEntry } from "#terms";
import { idField, lineField, noteField } from "./fields.ts";
import { quantity } from "./quantity-field.ts";
import { sha256Field } from "./sample-wire.ts";
import { validate } from "./validate.ts";
import { intoOrNull, outOrNull } from "./wire-numbers.ts";

const uuidField = z
  .string()
  .regex(/^[0-9a-f]{8}-[0-9a-f]{4}-[1-8][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/, { error: "must be a uuid" });

/** One form only, so that the order of the texts is the order of the instants. */
const instantField = z
  .string()
  .regex(/^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])T([01]\d|2[0-3]):[0-5]\d:[0-5]\d\.\d{3}Z$/, {
    error: "must be an instant in UTC such as 2026-03-31T14:05:00.000Z",
  });

const kinds = ["burned", "skipped", "repeated", "note", "photo", "temperature", "undo-of"] as const;

/** Fields that an entry of a kind has to fill. */
const needed: Readonly<Record<RunEntry["kind"], readonly ("patch" | "note" | "photo" | "coupon" | "of" | "plate")[]>> =
  {
    burned: ["patch"],
    skipped: ["patch", "note"],
    repeated: ["patch"],
    note: ["note"],
    photo: ["photo", "coupon"],
    temperature: ["patch", "plate"],
    "undo-of": ["of"],
  };

const runEntrySchema = z
  .strictObject({
    id: uuidField.meta({ description: "made where the entry was made; the same id is the same entry" }),
    kind: z.enum(kinds),
    patch: z.int().min(1).max(100_000).nullable().default(null),
    coupon: z.int().min(1).max(10_000).nullable().default(null),
    at: instantField.meta({ description: "by the clock of the phone" }),
    by: lineField.default(""),
    note: noteField.default("").meta({ description: "of a patch that was skipped: the reason" }),
    plateTemperature_degC: quantity({ unit: "degC", min: -60, max: 1500, description: "plate before the patch" })
      .nullable()
      .default(null),
    photo: sha256Field.nullable().default(null),
    of: uuidField.nullable().default(null).meta({ description: "entry that is taken back" }),
  })
  .check((context) => {
    const entry = context.value;
    for (const field of needed[entry.kind]) {
      const name = field === "plate" ? "plateTemperature_degC" : field;
      const value = entry[name];
      if (value === null || (typeof value === "string" && value.trim() === ""))
        context.issues.push({
          code: "custom",
          path: [name],
          message: `is needed of an entry "${entry.kind}"`,
          input: value,
        });
    }
    if (entry.of !== null && entry.kind !== "undo-of")
      context.issues.push({ code: "custom", path: ["of"], message: 'belongs to "undo-of" alone', input: entry.of });
  })
  .meta({ id: "run-entry" });

export type RunEntryWire = z.output<typeof runEntrySchema>;

/** What was done at the machine for one trial, whose id it bears. Entries are only added. */
export const runLogSchema = z
  .strictObject({
    id: idField,
    enquiry: idField,
    trial: idField,
    entries: z.array(runEntrySchema).max(20_000),
  })
  .check((context) => {
    const { id, trial } = context.value;
    if (id !== trial)
      context.issues.push({ code: "custom", path: ["id"], message: `must be ${trial}, as its trial`, input: id });
  })
  .meta({ title: "Scourlight run log of a trial" });

export type RunLogWire = z.output<typeof runLogSchema>;

/** An entry in the units of a file. */
export function runEntryToWire({ plateTemperature, ...same }: RunEntry): RunEntryWire {
  return { ...same, plateTemperature_degC: outOrNull(plateTemperature, "degC") };
}

/** The inverse of `runEntryToWire`. */
export function runEntryFromWire({ plateTemperature_degC, ...same }: RunEntryWire): RunEntry {
  return { ...same, plateTemperature: intoOrNull(plateTemperature_degC, "degC") };
}

/** An entry that nobody has checked. Throws InvalidInputs. */
export function parseRunEntry(json: unknown): RunEntryWire {
  return validate(runEntrySchema, json, "entry");
}

/** The log as it is asked for; version 0 while nothing was done. */
export const runLogAnswerSchema = z.strictObject({
  trial: idField,
  version: z.int().min(0),
  savedAt: z.string().nullable().meta({ description: "ISO 8601 instant of the last entry that came in" }),
  entries: z.array(runEntrySchema),
});
export type RunLogAnswer = z.output<typeof runLogAnswerSchema>;

/** What became of entries that were sent. Every one of them is in one of the two lists. */
export const runLogTakenSchema = z.strictObject({
  accepted: z.array(z.string()).meta({ description: "ids of the entries that the log holds now" }),
  refused: z.array(
    z.strictObject({
      line: z.int().min(1).meta({ description: "place in the list that was sent" }),
      id: z.string().nullable(),
      error: z.string(),
    }),
  ),
  version: z.int().min(0),
});
export type RunLogTaken = z.output<typeof runLogTakenSchema>;

/** Entries that are sent; each is judged by itself. */
export const runLogPostSchema = z.object({ entries: z.array(runEntrySchema).min(1).max(500) });
