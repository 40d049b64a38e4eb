import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import type { ArchiveAddedWire } from "#contract";
import { type AddedCounts, archiveLimits, importTrial, readBytes, type TrialBundle, unpackTrial } from "#exchange";
import { onFolder } from "./on-folder.ts";
import { askServer } from "./server-api.ts";

export interface ImportFlags {
  readonly archive: string;
  readonly data: string;
}

/** `import`: the trial of an archive into a data folder, each row with the time at which it was first saved. */
export async function importVerb({ archive, data }: ImportFlags): Promise<string> {
  const bytes = await readBytes(archive, "archive", archiveLimits.bytes);
  // Read here in any case: what is no archive is refused before anybody is asked.
  const bundle = unpackTrial(bytes);
  const { versions, outcomes, answers, photos } = await onFolder<AddedCounts>(data, {
    server: (door) => askServer<ArchiveAddedWire>(door, "POST", "/archives", { bytes, type: "application/zip" }),
    here: () => intoFolder(data, bundle),
  });
  if (versions + outcomes + answers + photos === 0)
    return `Trial ${bundle.trialId}: nothing to add, ${data} holds all of it`;
  return `Trial ${bundle.trialId}: added ${versions} versions of records, ${outcomes} outcomes, ${answers} answers and ${photos} photos to ${data}`;
}

async function intoFolder(data: string, bundle: TrialBundle): Promise<AddedCounts> {
  await mkdir(data, { recursive: true });
  const { openStore } = await import("#store");
  let times: string[] = [];
  const store = openStore(join(data, "scourlight.db"), { now: () => times.shift() ?? new Date().toISOString() });
  try {
    return await importTrial(store, bundle, (savedAt) => {
      times = [...savedAt];
    });
  } finally {
    await store.close();
  }
}
