import type { KeepAnswer, KeepAsk } from "./keeper-rules.ts";

/** Whether this phone opens the list without a network: "no" where the browser keeps pages only over TLS. */
export type Keeping = "starting" | "kept" | "newer" | "failed" | "no";

/** Paths of the files that this page has loaded. */
function runningFiles(): string[] {
  const own = performance
    .getEntriesByType("resource")
    .map((entry) => new URL(entry.name))
    .filter((url) => url.origin === location.origin && url.pathname.startsWith("/assets/"));
  return [...new Set(own.map((url) => url.pathname))];
}

/** ms that the keeper may take to fetch what it lacks */
const PATIENCE = 60_000;

function ask(keeper: ServiceWorker, answers: readonly string[]): Promise<KeepAnswer> {
  return new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    setTimeout(() => done("failed"), PATIENCE);
    port1.onmessage = (event: MessageEvent<KeepAnswer>) => done(event.data);
    keeper.postMessage({ kind: "keep", files: runningFiles(), answers } satisfies KeepAsk, [port2]);
  });
}

/** Lets this browser keep the page as it runs now, with the answers at these paths. Never rejects: without a network the page of last time stays. */
export async function keepPage(answers: readonly string[]): Promise<Keeping> {
  if (!import.meta.env.PROD || !("serviceWorker" in navigator)) return "no";
  try {
    await navigator.serviceWorker.register("/bench-keeper.js");
    const { active } = await navigator.serviceWorker.ready;
    if (active === null) return "failed";
    return await ask(active, answers);
  } catch {
    return "failed";
  }
}
