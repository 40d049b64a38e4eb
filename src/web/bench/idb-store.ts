import type { RunEntry } from "#terms";
import { type BenchStore, joinLogs, type QueuedEntry, type QueuedPhoto } from "./bench-store.ts";

const NAME = "scourlight-bench";
const stores = ["entries", "photos", "logs"] as const;

function opened(): Promise<IDBDatabase> {
  return new Promise((done, fail) => {
    const request = indexedDB.open(NAME, 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore("entries", { keyPath: "id" });
      request.result.createObjectStore("photos");
      request.result.createObjectStore("logs");
    };
    request.onsuccess = () => {
      // Another page with a newer shape of this database must not wait for this one.
      request.result.onversionchange = () => request.result.close();
      done(request.result);
    };
    request.onerror = () => fail(request.error);
    request.onblocked = () => fail(new Error("another page holds what this phone keeps"));
  });
}

const answerOf = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((done, fail) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => fail(request.error);
  });

/** The queue in the browser's own database. Rejects where the browser allows none, as in some private windows. */
export async function idbStore(): Promise<BenchStore> {
  const db = await opened();

  /** One transaction; resolves when what it wrote is on the disk. */
  const within = async <T>(mode: IDBTransactionMode, work: (tx: IDBTransaction) => Promise<T>): Promise<T> => {
    const tx = db.transaction([...stores], mode, { durability: "strict" });
    const ended = new Promise<void>((done, fail) => {
      tx.oncomplete = () => done();
      tx.onabort = () => fail(tx.error ?? new Error("this phone could not keep it"));
    });
    const [result] = await Promise.all([work(tx), ended]);
    return result;
  };
  const get = <T>(tx: IDBTransaction, store: (typeof stores)[number], key: string): Promise<T | undefined> =>
    answerOf(tx.objectStore(store).get(key) as IDBRequest<T | undefined>);
  const take = (tx: IDBTransaction, id: string): void => {
    tx.objectStore("entries").delete(id);
    tx.objectStore("photos").delete(id);
  };

  return {
    lasting: true,
    all: () => within("readonly", (tx) => answerOf(tx.objectStore("entries").getAll() as IDBRequest<QueuedEntry[]>)),
    add: (item, photo) =>
      within("readwrite", async (tx) => {
        tx.objectStore("entries").put(item);
        if (photo !== null) tx.objectStore("photos").put(photo, item.id);
      }),
    change: (id, change) =>
      within("readwrite", async (tx) => {
        const item = await get<QueuedEntry>(tx, "entries", id);
        if (item !== undefined) tx.objectStore("entries").put({ ...item, ...change });
      }),
    remove: (id) => within("readwrite", async (tx) => take(tx, id)),
    photo: async (id) => (await within("readonly", (tx) => get<QueuedPhoto>(tx, "photos", id))) ?? null,
    log: async (trialId) => (await within("readonly", (tx) => get<RunEntry[]>(tx, "logs", trialId))) ?? [],
    keepLog: (trialId, entries) =>
      within("readwrite", async (tx) => {
        const joined = joinLogs(await get<RunEntry[]>(tx, "logs", trialId), entries);
        tx.objectStore("logs").put(joined, trialId);
        for (const { id } of joined) take(tx, id);
      }),
  };
}
