import type { FastifyInstance } from "fastify";

const LOOPBACK = /^(localhost|127(\.\d{1,3}){3}|\[::1\])(:\d{1,5})?$/;

/** Answers only to loopback names, and lets no other site write: the data belong to whoever sits at this machine. */
export function guardOrigins(app: FastifyInstance): void {
  app.addHook("onRequest", async (request, reply) => {
    const host = request.headers.host ?? "";
    if (!LOOPBACK.test(host)) return reply.status(403).send({ error: "invalid host: only this machine is served" });
    if (request.method === "GET" || request.method === "HEAD") return;
    const { origin } = request.headers;
    const site = request.headers["sec-fetch-site"];
    const foreign = (origin !== undefined && origin !== `http://${host}`) || site === "cross-site";
    if (foreign) return reply.status(403).send({ error: "invalid origin: another site may not write here" });
  });
}
