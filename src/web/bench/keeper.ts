import {
  filesOfPage,
  type Generations,
  KEPT_MARK,
  type KeepAnswer,
  type KeepAsk,
  nextGenerations,
  ruleOf,
  sameVersion,
} from "./keeper-rules.ts";

/** What a worker between pages and network has; its own library of types would clash with that of the pages. */
interface LateEvent extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface FetchEvent extends LateEvent {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
interface AskEvent extends LateEvent {
  readonly data: KeepAsk;
  readonly ports: readonly MessagePort[];
}
interface Keeper {
  readonly location: Location;
  readonly clients: { claim(): Promise<void> };
  skipWaiting(): Promise<void>;
  addEventListener(kind: "install" | "activate", listener: (event: LateEvent) => void): void;
  addEventListener(kind: "fetch", listener: (event: FetchEvent) => void): void;
  addEventListener(kind: "message", listener: (event: AskEvent) => void): void;
}
const keeper = globalThis as unknown as Keeper;

const pages = (): Promise<Cache> => caches.open("scourlight-pages");
const answers = (): Promise<Cache> => caches.open("scourlight-answers");
const GENERATIONS = "/bench-generations";
/** ms after which a network that does not answer counts as lost, where there is something kept */
const PATIENCE = 5000;

/** What the network says in time; null where it says nothing, or that it has a fault or wants a word first. */
async function fromNetwork(request: Request, kept: boolean): Promise<Response | null> {
  const late = new Promise<null>((done) => setTimeout(() => done(null), PATIENCE));
  const asked = fetch(request);
  try {
    const answer = await (kept ? Promise.race([asked, late]) : asked);
    return answer !== null && kept && (answer.status === 401 || answer.status >= 500) ? null : answer;
  } catch (error) {
    if (kept) return null;
    throw error;
  } finally {
    asked.catch(() => undefined);
  }
}

/** The page as the server has it now, or the kept one with the headers that it came with: its nonce fits them. */
async function page(request: Request): Promise<Response> {
  const kept = await (await pages()).match("/");
  return (await fromNetwork(request, kept !== undefined)) ?? kept ?? Response.error();
}

/** Files are named by what is in them: the kept one is the right one. */
async function asset(request: Request): Promise<Response> {
  return (await (await pages()).match(request.url)) ?? fetch(request);
}

async function answer(request: Request): Promise<Response> {
  const cache = await answers();
  const kept = await cache.match(request.url);
  const fresh = await fromNetwork(request, kept !== undefined);
  if (fresh !== null) {
    if (fresh.ok) await cache.put(request.url, fresh.clone());
    return fresh;
  }
  if (kept === undefined) return Response.error();
  const headers = new Headers(kept.headers);
  headers.set(KEPT_MARK, "1");
  return new Response(kept.body, { status: kept.status, headers });
}

/** Keeps the page with the files that run now, all or nothing; files of the version before stay for pages still open. */
async function keep({ files: running, answers: wanted }: KeepAsk): Promise<KeepAnswer> {
  const fresh = await fetch("/", { cache: "no-store" });
  if (!fresh.ok) return "failed";
  const html = await fresh.clone().text();
  if (!sameVersion(html, running)) return "newer";
  const list = await answers();
  for (const path of wanted) if ((await list.match(path)) === undefined) await list.add(path);
  const cache = await pages();
  const files = [...new Set([...filesOfPage(html), ...running])];
  for (const file of files) if ((await cache.match(file)) === undefined) await cache.add(file);
  const noted = await cache.match(GENERATIONS);
  const last = noted === undefined ? { now: [], before: [] } : ((await noted.json()) as Generations);
  const next = nextGenerations(last, html, files);
  await cache.put("/", fresh);
  await cache.put(GENERATIONS, new Response(JSON.stringify(next)));
  const alive = new Set([...next.now, ...next.before, "/", GENERATIONS]);
  for (const { url } of await cache.keys()) if (!alive.has(new URL(url).pathname)) await cache.delete(url);
  return "kept";
}

/** Nobody answers: is the page that runs now the kept one? */
async function keptEarlier({ files, answers: wanted }: KeepAsk): Promise<KeepAnswer> {
  const kept = await (await pages()).match("/");
  if (kept === undefined || !sameVersion(await kept.text(), files)) return "failed";
  const list = await answers();
  for (const path of wanted) if ((await list.match(path)) === undefined) return "failed";
  return "kept";
}

keeper.addEventListener("install", (event) => event.waitUntil(keeper.skipWaiting()));
keeper.addEventListener("activate", (event) => event.waitUntil(keeper.clients.claim()));
keeper.addEventListener("fetch", (event) => {
  const { request } = event;
  const rule = ruleOf(request.method, request.url.split("#")[0] ?? "", keeper.location.origin);
  if (rule === "page" && request.mode === "navigate") event.respondWith(page(request));
  else if (rule === "asset") event.respondWith(asset(request));
  else if (rule === "answer") event.respondWith(answer(request));
});
keeper.addEventListener("message", (event) => {
  const work = keep(event.data)
    .catch(() => keptEarlier(event.data))
    .catch((): KeepAnswer => "failed");
  event.waitUntil(work.then((said) => event.ports[0]?.postMessage(said)));
});
