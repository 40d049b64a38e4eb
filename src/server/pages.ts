import { existsSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import fastifyStatic from "@fastify/static";
import type { FastifyInstance } from "fastify";

/** The pages are served with a fresh word that allows exactly the style elements they make themselves. */
const NONCE_MARK = "__STYLE_NONCE__";

/**
 * The script that looks at photographs, and what it may do. The marker finder inside it builds its bindings from text,
 * which the pages themselves may not; it is a worker, so it has no page to touch, and may speak to this server alone.
 */
const photoWorker = /^\/assets\/photo-worker-[\w-]+\.js$/;
const photoWorkerPolicy =
  "default-src 'none'; script-src 'self' 'unsafe-eval' 'wasm-unsafe-eval'; connect-src 'self'; frame-ancestors 'none'";

/** The built pages from a folder; nothing where it holds none. */
export async function servePages(app: FastifyInstance, webRoot: string | null): Promise<void> {
  if (webRoot === null || !existsSync(join(webRoot, "index.html"))) return;
  const page = await readFile(join(webRoot, "index.html"), "utf8");
  app.addHook("onSend", async (request, reply) => {
    if (photoWorker.test(request.url)) reply.header("content-security-policy", photoWorkerPolicy);
    // Its name never changes: a browser asks every time whether it is still the same.
    if (request.url === "/bench-keeper.js") reply.header("cache-control", "no-cache");
  });
  await app.register(fastifyStatic, { root: webRoot, index: false, maxAge: "1h", immutable: false });
  app.get("/", { schema: { hide: true } as object }, (_request, reply) =>
    reply
      .header("cache-control", "no-store")
      .type("text/html; charset=utf-8")
      .send(page.replace(NONCE_MARK, reply.cspNonce.style)),
  );
}
