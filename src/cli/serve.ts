import { existsSync } from "node:fs";
import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { enterPath, loadExample, startServer } from "#server";
import { openStore } from "#store";
import { invalid } from "#units";
import { exampleFolder } from "./job.ts";
import { leaveNote } from "./running-server.ts";
import { type AccessFlags, inUrl, openAccess } from "./serve-access.ts";

export interface ServeFlags extends AccessFlags {
  readonly port: number;
  readonly data: string;
}

/** `serve`: the pages and the API, on the loopback address or beyond it with an access word, until stopped. */
export async function serveVerb(flags: ServeFlags): Promise<string> {
  const examples = exampleFolder();
  const webRoot = join(examples, "..", "dist", "web");
  if (!existsSync(join(webRoot, "index.html"))) invalid("pages", webRoot, "", "not built yet: npm start builds them");
  const { access, reach, warnings } = await openAccess(flags);
  await mkdir(flags.data, { recursive: true });
  const store = openStore(join(flags.data, "scourlight.db"));
  if ((await store.read((r) => r.list("enquiry"))).length === 0) await loadExample(store, examples);
  const server = await startServer({
    port: flags.port,
    ...(flags.host === undefined ? {} : { host: flags.host }),
    access,
    store,
    webRoot,
    examples,
    now: () => new Date().toISOString(),
  }).catch(async (error: NodeJS.ErrnoException) => {
    await store.close();
    if (error.code === "EADDRINUSE")
      return invalid("port", flags.port, "", "another program has it; choose one with --port");
    if (error.code === "EADDRNOTAVAIL") return invalid("host", flags.host, "", "is not an address of this machine");
    throw error;
  });
  const stop = async () => {
    await server.close();
    await store.close();
    process.exit(0);
  };
  await leaveNote(flags.data, server.url, access.word);
  process.once("SIGINT", stop);
  process.once("SIGTERM", stop);
  if (access.word === null) return `Scourlight is at ${server.url}/ (this machine only; end with Ctrl+C)`;
  return networkLines(server.url, reach, enterPath(access.word), warnings).join("\n");
}

/** The links that let a browser in, and what goes with them. */
function networkLines(url: string, reach: readonly string[], enter: string, warnings: readonly string[]): string[] {
  const { protocol, port } = new URL(url);
  const links = reach.map((host) => `  ${protocol}//${inUrl(host)}${port === "" ? "" : `:${port}`}${enter}`);
  return [
    "Scourlight is open to this network for whoever has the link (end with Ctrl+C).",
    "Open it once on every phone and desk; a new start makes a new one:",
    ...links,
    "Whoever has it can read and change everything here.",
    ...warnings,
  ];
}
