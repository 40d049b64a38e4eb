import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Worker } from "node:worker_threads";
import { threadFromSource } from "#compute";
import type { Store } from "#store";
import { TooBusy } from "./errors.ts";
import type { PhotoDone, PhotoWork } from "./photo-work.ts";

type Heard = { readonly want: string } | { readonly done: PhotoDone };

/** Pieces of work that may wait for the one that runs: a photograph in work takes some 400 MB. */
const MOST_WAITING = 8;

function startThread(work: PhotoWork): Worker {
  for (const name of ["./photo-worker.mjs", "./server/photo-worker.mjs", "../server/photo-worker.mjs"]) {
    const path = fileURLToPath(new URL(name, import.meta.url));
    if (existsSync(path)) return new Worker(path, { workerData: work });
  }
  const start = threadFromSource(new URL("./photo-worker.ts", import.meta.url));
  if (start === null) throw new Error("this installation has no thread for photographs");
  return start(work);
}

/** Does work on photographs on a thread of its own, one piece after another; a stopped one ends its thread. */
export class PhotoThread {
  readonly #store: Store;
  #queue: Promise<unknown> = Promise.resolve();
  #waiting = 0;
  readonly #closing = new AbortController();

  constructor(store: Store) {
    this.#store = store;
  }

  work(work: PhotoWork, signal: AbortSignal): Promise<PhotoDone> {
    if (this.#waiting > MOST_WAITING)
      return Promise.reject(new TooBusy("photographs are being read already: wait for them"));
    this.#waiting += 1;
    const stop = AbortSignal.any([signal, this.#closing.signal]);
    const mine = this.#queue.then(() => this.#run(work, stop)).finally(() => (this.#waiting -= 1));
    this.#queue = mine.catch(() => undefined);
    return mine;
  }

  close(): void {
    this.#closing.abort();
  }

  #run(work: PhotoWork, signal: AbortSignal): Promise<PhotoDone> {
    return new Promise((resolve, reject) => {
      const stopped = () => reject(new Error("the work was cancelled"));
      if (signal.aborted) return stopped();
      const worker = startThread(work);
      const stop = () => {
        stopped();
        void worker.terminate();
      };
      signal.addEventListener("abort", stop, { once: true });
      worker.on("message", (heard: Heard) => {
        if ("done" in heard) {
          resolve(heard.done);
          void worker.terminate();
          return;
        }
        this.#store.photo(heard.want).then(
          (bytes) => worker.postMessage({ bytes }),
          (error: Error) => {
            reject(error);
            void worker.terminate();
          },
        );
      });
      worker.once("error", reject);
      // A thread that ends without a word, for want of memory say, would leave the request waiting for ever.
      worker.once("exit", (code) => {
        signal.removeEventListener("abort", stop);
        reject(new Error(`the thread ended with ${code}`));
      });
    });
  }
}
