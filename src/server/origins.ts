import type { FastifyInstance } from "fastify";
import { type Access, loopbackOnly } from "./access.ts";

const LOOPBACK = /^(localhost|127(\.\d{1,3}){3}|\[::1\])$/;
const HOST = /^(\[[0-9a-f:.]+\]|[a-z0-9.-]+)(?::\d{1,5})?$/;

/**
 * Answers only to loopback names and to those that whoever started the server allowed, and lets no other site write: the
 * data belong to whoever sits at this machine.
 */
export function guardOrigins(app: FastifyInstance, access: Access = loopbackOnly): void {
  const scheme = access.tls === null ? "http" : "https";
  app.addHook("onRequest", async (request, reply) => {
    const host = (request.headers.host ?? "").toLowerCase();
    const name = HOST.exec(host)?.[1] ?? "";
    if (!LOOPBACK.test(name) && !access.hosts.includes(name)) {
      const rule = access.hosts.length === 0 ? "only this machine is served" : "not one that this server answers to";
      return reply.status(403).send({ error: `invalid host: ${rule}` });
    }
    if (request.method === "GET" || request.method === "HEAD") return;
    const { origin } = request.headers;
    const site = request.headers["sec-fetch-site"];
    const foreign = (origin !== undefined && origin !== `${scheme}://${host}`) || site === "cross-site";
    if (foreign) return reply.status(403).send({ error: "invalid origin: another site may not write here" });
  });
}
