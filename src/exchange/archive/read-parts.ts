import { z } from "zod";
import { type PublishedSchema, publishedSchemas, validate, validatePublished } from "#contract";
import { parseLibraryFile } from "#library";
import type { PhotoLine, RecordKind } from "#store";
import { InvalidInput, invalid } from "#units";
import { recordKinds } from "./belongs.ts";
import type { ArchivedAnswer, ArchivedOutcome, ArchivedRecord, ArchivedVersion } from "./bundle.ts";
import { outcomesPath, photosPath } from "./crate-words.ts";

const time = z
  .string()
  .regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,9})?Z$/, { error: "must be a time such as 2026-03-31T12:00:00.000Z" })
  .refine((text) => !Number.isNaN(Date.parse(text)), { error: "must be a time that there was" });

const recordFile = z.strictObject({
  kind: z.enum(recordKinds as [RecordKind, ...RecordKind[]], { error: "is no kind of record that this version knows" }),
  id: z.string(),
  versions: z
    .array(z.strictObject({ version: z.int().min(1), savedAt: time, record: z.unknown() }))
    .min(1)
    .max(100_000),
});

/** One record by the shape that is published for its kind. */
function checked(kind: RecordKind, value: unknown, what: string): ArchivedVersion["record"] {
  if (kind !== "library") return validatePublished(kind, value, what) as ArchivedVersion["record"];
  const { id, file } = validate(z.strictObject({ id: z.string(), file: z.unknown() }), value, what);
  return { id, file: parseLibraryFile(file) };
}

/** A file of the records folder, every version by its shape. Throws InvalidInput. */
export function readRecord(value: unknown, path: string): ArchivedRecord {
  const { kind, id, versions } = validate(recordFile, value, path);
  return {
    kind,
    id,
    versions: versions.map(({ version, savedAt, record }, i) => {
      if (version !== i + 1) invalid(`${kind} ${id} version`, version, "", `must be ${i + 1}: versions have no gaps`);
      const fit = checked(kind, record, `${kind} ${id}`);
      if (fit.id !== id) invalid(`${kind} id`, fit.id, "", `must be ${id}, as its file says`);
      return { version, savedAt, record: fit };
    }),
  };
}

const outcomesFile = z.array(z.strictObject({ savedAt: time, outcome: z.unknown() })).max(1_000_000);

/** Every grading by its shape, all of one trial. Throws InvalidInput. */
export function readOutcomes(value: unknown, trialId: string): ArchivedOutcome[] {
  return validate(outcomesFile, value, outcomesPath).map(({ savedAt, outcome }) => {
    const fit = validatePublished("outcome", outcome, "outcome");
    if (fit.trial !== trialId) throw new InvalidInput("outcome trial", fit.trial, "", `must be ${trialId}`);
    return { savedAt, outcome: fit };
  });
}

const answerFile = z.strictObject({
  enquiry: z.string().min(1).max(80),
  enquiryVersion: z.int().min(1),
  shape: z.enum(publishedSchemas as [PublishedSchema, ...PublishedSchema[]]),
  modelVersion: z.string().max(300),
  savedAt: time,
  inputs: z.record(z.string(), z.unknown()),
  result: z.unknown(),
});

/** An answer, its result by the shape that it names. Throws InvalidInput. */
export function readAnswer(value: unknown, path: string): ArchivedAnswer {
  const answer = validate(answerFile, value, path);
  return { ...answer, result: validatePublished(answer.shape, answer.result, path) };
}

const photosFile = z
  .array(
    z.strictObject({
      sha256: z.string().regex(/^[0-9a-f]{64}$/, { error: "must be a sha256 in 64 hexadecimal digits" }),
      mediaType: z.string().max(100),
      bytes: z.int().min(1),
      savedAt: time,
      file: z.string(),
    }),
  )
  .max(100_000);

/** The list of photos, each with the file that holds it; the bytes are checked by the caller. Throws InvalidInput. */
export function readPhotoLines(value: unknown): (PhotoLine & { readonly file: string })[] {
  return validate(photosFile, value, photosPath);
}
