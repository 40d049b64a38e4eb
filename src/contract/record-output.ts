import { z } from "zod";
import type { RecordedOutcomes } from "./outcomes-csv.ts";

/** What `record --json` prints. */
export const recordSchema = z
  .strictObject({
    trial: z.string(),
    accepted: z.int().meta({ description: "number of rows kept" }),
    refused: z.array(z.strictObject({ line: z.int(), message: z.string() })),
  })
  .meta({ title: "Scourlight recorded outcomes" });

export type RecordWire = z.output<typeof recordSchema>;

export function recordToWire(trialId: string, recorded: RecordedOutcomes): RecordWire {
  return {
    trial: trialId,
    accepted: recorded.accepted.length,
    refused: recorded.refused.map(({ line, message }) => ({ line, message })),
  };
}
