import type { FastifyInstance } from "fastify";
import { docsPage, type OpenApi } from "./description/docs-page.ts";

/** The description of the API: for programs, and as a page for people. */
export function docsRoutes(app: FastifyInstance, api: FastifyInstance): void {
  let page: string | null = null;
  api.get("/docs", { schema: { hide: true } as object }, (_request, reply) => {
    page ??= docsPage(app.swagger() as unknown as OpenApi);
    return reply
      .header("cache-control", "no-cache")
      .type("text/html; charset=utf-8")
      .send(page.replace("<style>", `<style nonce="${reply.cspNonce.style}">`));
  });
}
