import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Worker } from "node:worker_threads";
import type { DeskMade, DeskWork } from "./desk-work.ts";

/** The thread's file lies beside the built commands; from source the work runs on this thread. */
function threadFile(): string | null {
  for (const name of ["./answer-worker.mjs", "./server/answer-worker.mjs", "../server/answer-worker.mjs"]) {
    const path = fileURLToPath(new URL(name, import.meta.url));
    if (existsSync(path)) return path;
  }
  return null;
}

/** Works out an answer or sets a paper on a thread of its own, so that other requests are served meanwhile; ends the thread when stopped. */
export async function inThread<W extends DeskWork>(work: W, signal: AbortSignal): Promise<DeskMade<W>> {
  if (signal.aborted) throw new Error("the work was cancelled");
  const file = threadFile();
  if (file === null) {
    const { deskWork } = await import("./desk-work.ts");
    return deskWork(work);
  }
  return new Promise((resolve, reject) => {
    const worker = new Worker(file, { workerData: work });
    const stop = () => {
      void worker.terminate();
      reject(new Error("the work was cancelled"));
    };
    signal.addEventListener("abort", stop, { once: true });
    worker.once("message", (made: DeskMade<W>) => {
      signal.removeEventListener("abort", stop);
      resolve(made);
      void worker.terminate();
    });
    worker.once("error", reject);
    // A thread that ends without a word, for want of memory say, would leave the request waiting for ever.
    worker.once("exit", (code) => reject(new Error(`the thread ended with ${code}`)));
  });
}
