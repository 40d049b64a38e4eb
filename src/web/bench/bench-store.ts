import type { RunEntry } from "#terms";
import { mergeEntries } from "#trial";

/** The bytes of a photograph: a file that the camera handed over may be gone after the page was closed. */
export interface QueuedPhoto {
  readonly bytes: ArrayBuffer;
  readonly type: string;
}

/** An entry that this phone answers for until the server's log has been seen with it. */
export interface QueuedEntry {
  readonly id: string;
  readonly trialId: string;
  readonly entry: RunEntry;
  /** sent: the server has it, but no log that holds it was read yet */
  readonly state: "waiting" | "sent" | "refused";
  /** why the server refused it; "" elsewhere */
  readonly line: string;
  /** a photograph goes first; its entry has no sha256 before */
  readonly withPhoto: boolean;
}

/**
 * Where a phone keeps what was done. What `add` has resolved for survives a reload and the end of the browser. All
 * pages of one browser share it, so a change is made to what is there, never to what was read before.
 */
export interface BenchStore {
  /** false: this browser keeps nothing, all is lost with the page */
  readonly lasting: boolean;
  all(): Promise<readonly QueuedEntry[]>;
  add(item: QueuedEntry, photo: QueuedPhoto | null): Promise<void>;
  /** Changes an entry if it is still there. */
  change(id: string, change: Partial<Pick<QueuedEntry, "state" | "line" | "entry">>): Promise<void>;
  /** Takes an entry away with its photograph. */
  remove(id: string): Promise<void>;
  photo(id: string): Promise<QueuedPhoto | null>;
  /** the last log of a trial that was seen here */
  log(trialId: string): Promise<readonly RunEntry[]>;
  /** Adds what a log holds to what was seen before, and takes away what this phone need not answer for any more: both or none. */
  keepLog(trialId: string, entries: readonly RunEntry[]): Promise<void>;
}

/** Log as it is kept after another one was read. */
export const joinLogs = (before: readonly RunEntry[] | undefined, read: readonly RunEntry[]): RunEntry[] =>
  mergeEntries(before ?? [], read);

/** Keeps all in the page alone: for browsers that allow no more, and for tests. */
export function memoryStore(lasting = false): BenchStore {
  const items = new Map<string, QueuedEntry>();
  const photos = new Map<string, QueuedPhoto>();
  const logs = new Map<string, RunEntry[]>();
  const remove = async (id: string): Promise<void> => {
    items.delete(id);
    photos.delete(id);
  };
  return {
    lasting,
    all: async () => [...items.values()],
    add: async (item, photo) => {
      items.set(item.id, item);
      if (photo !== null) photos.set(item.id, photo);
    },
    change: async (id, change) => {
      const item = items.get(id);
      if (item !== undefined) items.set(id, { ...item, ...change });
    },
    remove,
    photo: async (id) => photos.get(id) ?? null,
    log: async (trialId) => logs.get(trialId) ?? [],
    keepLog: async (trialId, entries) => {
      const joined = joinLogs(logs.get(trialId), entries);
      logs.set(trialId, joined);
      for (const { id } of joined) await remove(id);
    },
  };
}
