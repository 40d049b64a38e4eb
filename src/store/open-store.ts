import { AsyncLocalStorage } from "node:async_hooks";
import { openDatabase } from "./open-database.ts";
import { photoFiles } from "./photo-files.ts";
import { createReader } from "./reader.ts";
import type { Store } from "./store.ts";
import { createTransaction } from "./transaction.ts";

export interface StoreOptions {
  /** time as ISO 8601; the clock of the machine when left out */
  readonly now?: () => string;
}

/** Refuses every use of a reader or transaction after its work is done, when its writes could not be kept any more. */
function revocable<T extends object>(target: T): { readonly proxy: T; revoke(): void } {
  let live = true;
  const proxy = new Proxy(target, {
    get(object, key, receiver) {
      if (!live) throw new Error("this transaction is over");
      return Reflect.get(object, key, receiver);
    },
  });
  return {
    proxy,
    revoke: () => {
      live = false;
    },
  };
}

/**
 * Opens the embedded store: one database file, its photos in `<path>-photos`. One piece of work runs at a time, so
 * that each sees a steady picture. Throws InvalidInput for a file that is no database, of another program, or of a
 * newer version.
 */
export function openStore(path: string, options: StoreOptions = {}): Store {
  const db = openDatabase(path);
  const now = options.now ?? (() => new Date().toISOString());
  const files = photoFiles(`${path}-photos`);
  const inside = new AsyncLocalStorage<true>();
  let queue: Promise<unknown> = Promise.resolve();
  let closed = false;

  const inTurn = <T>(begin: string, work: () => Promise<T>): Promise<T> => {
    // Waiting for one's own turn inside one's own turn would wait for ever.
    if (inside.getStore()) return Promise.reject(new Error("use the reader or transaction that was handed in"));
    const run = queue.then(() =>
      inside.run(true, async () => {
        if (closed) throw new Error("the store is closed");
        db.exec(begin);
        try {
          const result = await work();
          db.exec("COMMIT");
          return result;
        } catch (error) {
          if (db.inTransaction) db.exec("ROLLBACK");
          throw error;
        }
      }),
    );
    queue = run.catch(() => undefined);
    return run;
  };

  const store: Store = {
    read: (work) =>
      inTurn("BEGIN", async () => {
        const { proxy, revoke } = revocable(createReader(db));
        return work(proxy).finally(revoke);
      }),
    write: (work, at = now) =>
      inTurn("BEGIN IMMEDIATE", async () => {
        const { proxy, revoke } = revocable(createTransaction(db, at));
        return work(proxy).finally(revoke);
      }),
    async savePhoto(bytes, mediaType, at = now) {
      const sha256 = await files.keep(bytes, mediaType);
      await store.write((transaction) => transaction.notePhoto({ sha256, mediaType, bytes: bytes.length }), at);
      return sha256;
    },
    photo: (sha256) => files.find(sha256),
    async close() {
      await queue;
      if (!closed) db.close();
      closed = true;
    },
  };
  return store;
}
