import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { archiveLimits, importTrial, readBytes, unpackTrial } from "#exchange";

export interface ImportFlags {
  readonly archive: string;
  readonly data: string;
}

/** `import`: the trial of an archive into a data folder, each row with the time at which it was first saved. */
export async function importVerb({ archive, data }: ImportFlags): Promise<string> {
  const bundle = unpackTrial(await readBytes(archive, "archive", archiveLimits.bytes));
  await mkdir(data, { recursive: true });
  const { openStore } = await import("#store");
  let times: string[] = [];
  const store = openStore(join(data, "scourlight.db"), { now: () => times.shift() ?? new Date().toISOString() });
  try {
    const added = await importTrial(store, bundle, (savedAt) => {
      times = [...savedAt];
    });
    const { versions, outcomes, answers, photos } = added;
    if (versions + outcomes + answers + photos === 0)
      return `Trial ${bundle.trialId}: nothing to add, ${data} holds all of it`;
    return `Trial ${bundle.trialId}: added ${versions} versions of records, ${outcomes} outcomes, ${answers} answers and ${photos} photos to ${data}`;
  } finally {
    await store.close();
  }
}
