import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import type { Store } from "#store";

/** Opens the data folder's store, does some work and closes it again whatever happens. */
export async function withStore<T>(folder: string, work: (store: Store) => Promise<T>): Promise<T> {
  await mkdir(folder, { recursive: true });
  const { openStore } = await import("#store");
  const store = openStore(join(folder, "scourlight.db"));
  try {
    return await work(store);
  } finally {
    await store.close();
  }
}
