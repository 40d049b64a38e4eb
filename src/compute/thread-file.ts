import { existsSync } from "node:fs";
import { createRequire } from "node:module";
import { fileURLToPath, pathToFileURL } from "node:url";
import { Worker } from "node:worker_threads";

/** Starts a thread with some data; null where this installation has none to start. */
export type ThreadStart = (data: unknown) => Worker;

/** Built, the thread's file lies in compute/ of the built folder; from source it is TypeScript and wants a loader. */
export function threadStart(): ThreadStart | null {
  for (const name of ["./compute/sweep-worker.mjs", "../compute/sweep-worker.mjs"]) {
    const path = fileURLToPath(new URL(name, import.meta.url));
    if (existsSync(path)) return (workerData) => new Worker(path, { workerData });
  }
  return threadFromSource(new URL("./sweep-worker.ts", import.meta.url));
}

/**
 * A thread that runs a TypeScript file of a checkout, for tools, tests and bench: their loader has to be put up inside
 * the thread before the file is read. Null where the file or the loader is not there.
 */
export function threadFromSource(file: URL): ThreadStart | null {
  const loader = existsSync(fileURLToPath(file)) ? loaderOfSource() : null;
  if (loader === null) return null;
  const code = `import(${JSON.stringify(loader)}).then(({ register }) => (register(), import(${JSON.stringify(file.href)})));`;
  return (workerData) => new Worker(code, { eval: true, workerData });
}

function loaderOfSource(): string | null {
  try {
    // The other entry of this name, for `require`, cannot put itself up inside a thread.
    const found = createRequire(import.meta.url).resolve("tsx/esm/api");
    return pathToFileURL(found.replace(/\.cjs$/, ".mjs")).href;
  } catch {
    return null;
  }
}
