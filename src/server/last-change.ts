import type { StoreReader } from "#store";
import { libraryChanges } from "./library-change.ts";

/** When anything was last saved that an answer to an enquiry stands on: the enquiry, its trials, outcomes and gradings, own library entries; null where there is none. */
export async function lastChange(reader: StoreReader, enquiry: string): Promise<string | null> {
  const described = await reader.latest("enquiry", enquiry);
  const times = await libraryChanges(reader, described?.record ?? null);
  const own = await reader.lastChange(enquiry);
  if (own !== null) times.push(own);
  return times.reduce<string | null>((latest, time) => (latest === null || time > latest ? time : latest), null);
}
