import { parentPort, workerData } from "node:worker_threads";
import { type PhotoWork, workPhotos } from "./photo-work.ts";

const port = parentPort;
if (port !== null) {
  // The store stays with the thread that serves: it hands over one original at a time, when it is asked for it.
  const photoOf = (sha256: string): Promise<Uint8Array | null> =>
    new Promise((resolve) => {
      port.once("message", ({ bytes }: { readonly bytes: Uint8Array | null }) => resolve(bytes));
      port.postMessage({ want: sha256 });
    });
  port.postMessage({ done: await workPhotos(workerData as PhotoWork, photoOf) });
}
