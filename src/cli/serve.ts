import { existsSync } from "node:fs";
import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { loadExample, startServer } from "#server";
import { openStore } from "#store";
import { invalid } from "#units";
import { exampleFolder } from "./job.ts";

export interface ServeFlags {
  readonly port: number;
  readonly data: string;
}

/** `serve`: the pages and the API on the loopback address, until stopped. */
export async function serveVerb(flags: ServeFlags): Promise<string> {
  const examples = exampleFolder();
  const webRoot = join(examples, "..", "dist", "web");
  if (!existsSync(join(webRoot, "index.html"))) invalid("pages", webRoot, "", "not built yet: npm start builds them");
  await mkdir(flags.data, { recursive: true });
  const store = openStore(join(flags.data, "scourlight.db"));
  if ((await store.read((r) => r.list("enquiry"))).length === 0) await loadExample(store, examples);
  const server = await startServer({
    port: flags.port,
    store,
    webRoot,
    examples,
    now: () => new Date().toISOString(),
  }).catch(async (error: NodeJS.ErrnoException) => {
    await store.close();
    if (error.code === "EADDRINUSE")
      return invalid("port", flags.port, "", "another program has it; choose one with --port");
    throw error;
  });
  const stop = async () => {
    await server.close();
    await store.close();
    process.exit(0);
  };
  process.once("SIGINT", stop);
  process.once("SIGTERM", stop);
  return `Scourlight is at ${server.url}/ (this machine only; end with Ctrl+C)`;
}
