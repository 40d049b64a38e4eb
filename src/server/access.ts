import { createHash, randomBytes, timingSafeEqual } from "node:crypto";
import type { ServerOptions } from "node:http";
import type { FastifyInstance } from "fastify";

/** Who may speak to a server that is bound beyond the loopback address, and how. */
export interface Access {
  /** names and addresses beside the loopback ones under which it answers, without port, in lower case */
  readonly hosts: readonly string[];
  /** what a browser has to show; null where the server is bound to the loopback address alone */
  readonly word: string | null;
  /** key and certificate as PEM; null speaks plain HTTP */
  readonly tls: { readonly key: Buffer; readonly cert: Buffer } | null;
}

/** The usual: this machine, and nobody is asked for a word. */
export const loopbackOnly: Access = { hosts: [], word: null, tls: null };

// Letters and digits that nobody takes for one another: 32 of them, 5 bits each.
const letters = "abcdefghijkmnpqrstuvwxyz23456789";

/** A new word of 100 random bits in four groups that can be typed. */
export function newAccessWord(): string {
  const all = [...randomBytes(20)].map((byte) => letters[byte % 32]);
  return [0, 5, 10, 15].map((i) => all.slice(i, i + 5).join("")).join("-");
}

/** Compares in the same time wherever two words differ, and however long they are. */
export function sameWord(given: string, word: string): boolean {
  const digest = (text: string) => createHash("sha256").update(text).digest();
  return timingSafeEqual(digest(given), digest(word));
}

const cookieName = "scourlight-access";
const wanted = "access word needed: open the link that was printed where this server was started";

/** Value of our cookie in a Cookie header, "" where it is not there. */
function shownWord(header: string | undefined): string {
  for (const pair of (header ?? "").split(";")) {
    const [name, value] = pair.trim().split("=", 2);
    if (name === cookieName) return value ?? "";
  }
  return "";
}

/** Path of the link that lets a browser in. What stands behind a # in it stays in the address. */
export const enterPath = (word: string): string => `/enter?word=${word}`;

/** Asks every request for the word; `/enter?word=…` puts it into a cookie and goes on to the pages. */
export function guardAccess(app: FastifyInstance, { word, tls }: Access): void {
  if (word === null) return;
  // Means nothing without TLS, and browsers complain of it.
  if (tls === null)
    app.addHook("onSend", async (_request, reply) => {
      reply.removeHeader("cross-origin-opener-policy");
    });
  app.addHook("onRequest", async (request, reply) => {
    if (request.url.startsWith("/enter?") || sameWord(shownWord(request.headers.cookie), word)) return;
    // A page is read by a person, an answer of the API by the pages.
    if (request.url.startsWith("/api/")) return reply.status(401).send({ error: wanted });
    return reply.status(401).type("text/plain; charset=utf-8").send(`${wanted}\n`);
  });
  app.get(
    "/enter",
    { schema: { hide: true } as object, config: { rateLimit: { max: 30, timeWindow: "1 minute" } } },
    (request, reply) => {
      const given = (request.query as { word?: unknown }).word;
      if (typeof given !== "string" || !sameWord(given, word))
        return reply
          .status(401)
          .type("text/plain; charset=utf-8")
          .send("access word wrong: the server makes a new one at every start; open the link that it printed last\n");
      const month = 30 * 24 * 3600;
      const cookie = `${cookieName}=${word}; Path=/; HttpOnly; SameSite=Lax; Max-Age=${month}`;
      return reply
        .header("set-cookie", tls === null ? cookie : `${cookie}; Secure`)
        .header("cache-control", "no-store")
        .redirect("/", 303);
    },
  );
}

/** The listener's own options, for TLS where there is a key. Returned as an object, for the types of both listeners differ. */
export const listenerOptions = (own: ServerOptions, access: Access = loopbackOnly): object =>
  access.tls === null ? { http: own } : { https: { ...own, ...access.tls, minVersion: "TLSv1.2" } };
