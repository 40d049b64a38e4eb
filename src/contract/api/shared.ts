import { z } from "zod";

/** The time at which a record was saved, by the clock of the machine that keeps it. */
export const savedAtField = z.string().meta({ description: "ISO 8601 instant" });

/** Version of a record, counted from 1 without gaps. */
export const versionField = z.int().min(1);

/** The version that a change was made from. */
export const fromVersionField = z
  .int()
  .min(0)
  .max(1e9)
  .default(0)
  .meta({ description: "the version that was read; 0 for a new one" });

/** What every refusal says: one line for the person, in the body of a 4xx or 5xx answer. */
export const refusalSchema = z
  .strictObject({ error: z.string().meta({ description: "one line for the person" }) })
  .meta({ id: "refusal" });
export type RefusalWire = z.output<typeof refusalSchema>;

/** Versions of a record, newest first. */
export const historySchema = z.strictObject({
  versions: z.array(z.strictObject({ version: versionField, savedAt: savedAtField })),
});
export type HistoryWire = z.output<typeof historySchema>;

export const keptIdSchema = z.strictObject({ id: z.string() });
export const keptVersionSchema = z.strictObject({ id: z.string(), version: versionField, savedAt: savedAtField });
export const keptPhotoSchema = z.strictObject({
  sha256: z.string().meta({ description: "of the bytes as they came; the photograph is found by it" }),
});

/** Who answers: for programs that look whether a server runs. */
export const healthSchema = z.strictObject({
  name: z.literal("scourlight"),
  version: z.string(),
  modelVersion: z.string().meta({ description: "version of the physics behind its answers" }),
  instance: z.string().meta({ description: "of this run of the server" }),
  schemaVersion: z.int().meta({ description: "version of the database's layout" }),
});
export type HealthWire = z.output<typeof healthSchema>;
