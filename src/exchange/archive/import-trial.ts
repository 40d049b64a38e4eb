import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { openStore, type Store } from "#store";
import { type AddedCounts, additionsTo } from "./additions.ts";
import type { ArchivedPhoto, TrialBundle } from "./bundle.ts";

/** Told when each of the coming rows was first saved, so that a store whose clock reads it keeps the old times. */
export type ComingTimes = (savedAt: readonly string[]) => void;

async function add(
  store: Store,
  bundle: TrialBundle,
  photos: readonly ArchivedPhoto[],
  coming: ComingTimes,
): Promise<void> {
  for (const photo of photos) {
    coming([photo.savedAt]);
    await store.savePhoto(photo.content, photo.mediaType);
  }
  await store.write(async (transaction) => {
    // Asked again inside the transaction: another process may have written in between.
    for (const write of (await additionsTo(transaction, bundle)).writes) {
      coming(write.savedAt);
      await write.apply(transaction);
    }
  });
}

/** The largest photo of each media type: what the store's rules on photos can refuse, they refuse of one of these. */
function representative(photos: readonly ArchivedPhoto[]): ArchivedPhoto[] {
  const largest = new Map<string, ArchivedPhoto>();
  for (const photo of photos)
    if (photo.bytes > (largest.get(photo.mediaType)?.bytes ?? 0)) largest.set(photo.mediaType, photo);
  return [...largest.values()];
}

/** Imports into a store that is thrown away: whatever a store refuses is refused before the real one is touched. */
async function rehearse(bundle: TrialBundle): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), "scourlight-import-"));
  const store = openStore(join(folder, "rehearsal.db"));
  try {
    await add(store, bundle, representative(bundle.photos), () => {});
  } finally {
    await store.close();
    await rm(folder, { recursive: true, force: true });
  }
}

/**
 * Adds what the store lacks of a trial and returns how much that was. Records come in one transaction, all or none;
 * photos before them, since a record may name one. Imported twice, nothing is added. Throws InvalidInput where the store
 * holds something else under a name that the archive brings; nothing is then written.
 */
export async function importTrial(
  store: Store,
  bundle: TrialBundle,
  coming: ComingTimes = () => {},
): Promise<AddedCounts> {
  await rehearse(bundle);
  const { photos, counts } = await store.read((reader) => additionsTo(reader, bundle));
  try {
    await add(store, bundle, photos, coming);
  } finally {
    coming([]);
  }
  return counts;
}
