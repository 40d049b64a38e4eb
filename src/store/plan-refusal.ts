import { planRefusal, type TrialWire } from "#contract";
import type { StoreReader } from "./store.ts";

/** Why a plan may not be kept, as the end of a sentence that begins with the trial; null where it may. See `planRefusal`. */
export async function refusalOfPlan(reader: StoreReader, next: TrialWire): Promise<string | null> {
  const kept = await reader.latest("trial", next.id);
  if (kept === null) return null;
  const log = await reader.latest("run-log", next.id);
  const outcomes = (await reader.outcomes(next.id)).length;
  return planRefusal(kept.record, next, { outcomes, entries: log?.record.entries ?? [] });
}
