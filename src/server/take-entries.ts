import { parseRunEntry, type RunEntryWire, type RunLogTaken, type TrialWire } from "#contract";
import type { StoreTransaction } from "#store";
import { mergeEntries } from "#trial";
import { InvalidInput, invalid } from "#units";
import { findTrial } from "./find-trial.ts";

const MOST_ENTRIES = 20_000;

/** Throws InvalidInput for an entry that speaks of something that the trial has not. */
function requireKnown(entry: RunEntryWire, trial: TrialWire, photos: ReadonlySet<string>): void {
  const { patch, coupon, photo, kind } = entry;
  if (patch !== null) {
    const planned = trial.patches.find((p) => p.patch === patch);
    if (planned === undefined) invalid("patch", patch, "", `must be a patch of trial ${trial.id}`);
    else if (planned.setting === null && (kind === "burned" || kind === "repeated"))
      invalid("patch", patch, "", "has no setting: it is not burned");
  }
  if (coupon !== null && !trial.coupons.some((c) => c.coupon === coupon))
    invalid("coupon", coupon, "", `one of: ${trial.coupons.map((c) => c.coupon).join(", ")}`);
  if (photo !== null && !photos.has(photo)) invalid("photo", photo, "", "is not kept: send the photograph first");
}

const idOf = (given: unknown): string | null => {
  const id = (given as { id?: unknown } | null)?.id;
  return typeof id === "string" ? id.slice(0, 80) : null;
};

/**
 * Adds the entries that fit to the log of a trial. An entry that the log has already is accepted and changes nothing;
 * another one under its id is refused. Reading and adding are one transaction, and the store has one writer, so no entry
 * of another phone comes in between. Throws NotFound where there is no such trial.
 */
export async function takeEntries(
  tx: StoreTransaction,
  trialId: string,
  sent: readonly unknown[],
): Promise<RunLogTaken> {
  const { wire: trial } = await findTrial(tx, trialId);
  const saved = await tx.latest("run-log", trial.id);
  const before = saved?.record.entries ?? [];
  const known = new Map(before.map((e) => [e.id, e]));
  const photos = new Set((await tx.photos()).map((p) => p.sha256));
  const added: RunEntryWire[] = [];
  const accepted: string[] = [];
  const refused: RunLogTaken["refused"] = [];
  sent.forEach((given, i) => {
    try {
      const entry = parseRunEntry(given);
      const twin = known.get(entry.id);
      if (twin === undefined) {
        requireKnown(entry, trial, photos);
        if (known.size >= MOST_ENTRIES) invalid("run log", known.size, "", `holds at most ${MOST_ENTRIES} entries`);
        known.set(entry.id, entry);
        added.push(entry);
      } else if (JSON.stringify(twin) !== JSON.stringify(entry))
        invalid("entry", entry.id, "", "the log has another entry under this id");
      if (!accepted.includes(entry.id)) accepted.push(entry.id);
    } catch (error) {
      if (!(error instanceof InvalidInput)) throw error;
      refused.push({ line: i + 1, id: idOf(given), error: error.message });
    }
  });
  if (added.length === 0) return { accepted, refused, version: saved?.version ?? 0 };
  const entries = mergeEntries(before, added);
  const log = { id: trial.id, enquiry: trial.enquiry, trial: trial.id, entries };
  const { version } = await tx.put("run-log", log, saved?.version ?? 0);
  return { accepted, refused, version };
}
