import type { StoreReader } from "#store";
import { libraryChanges } from "./library-change.ts";

/** When anything was last saved that an answer to an enquiry stands on: the enquiry, its trials, outcomes and gradings, own library entries; null where there is none. */
export async function lastChange(reader: StoreReader, enquiry: string): Promise<string | null> {
  const times: string[] = [];
  const described = await reader.latest("enquiry", enquiry);
  if (described !== null) times.push(described.savedAt);
  for (const trial of await reader.list("trial", enquiry)) {
    times.push(trial.savedAt);
    // In order of arrival: the last row is the newest.
    const newest = (await reader.outcomeHistory(trial.id)).at(-1);
    if (newest !== undefined) times.push(newest.savedAt);
  }
  times.push(...(await libraryChanges(reader, described?.record ?? null)));
  for (const grading of await reader.list("grading", enquiry)) times.push(grading.savedAt);
  return times.reduce<string | null>((latest, time) => (latest === null || time > latest ? time : latest), null);
}
