import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { request } from "node:https";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { FastifyInstance } from "fastify";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Access, buildServer, newAccessWord, startServer } from "#server";
import { openStore, type Store } from "#store";
import { openAccess } from "../../src/cli/serve-access.ts";
import { sameWord } from "../../src/server/access.ts";

const keyFile = new URL("tls/key.pem", import.meta.url).pathname;
const certFile = new URL("tls/cert.pem", import.meta.url).pathname;
const host = "192.168.7.5:4173";
const word = "aaaaa-bbbbb-ccccc-ddddd";
let folder = "";
let store: Store;
let app: FastifyInstance;
const options = () => ({ store, webRoot: null, examples: folder, now: () => "2026-11-25T10:00:00.000Z" });

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "access-"));
  store = openStore(join(folder, "test.db"));
  const access: Access = { hosts: ["192.168.7.5", "bench.example"], word, tls: null };
  app = await buildServer({ ...options(), access });
});
afterAll(async () => {
  await app.close();
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

const cookie = `other=1; scourlight-access=${word}`;
const get = (url: string, headers: Record<string, string>) => app.inject({ url, headers });

describe("beyond the loopback address", () => {
  it("nothing is answered without the word, in one sentence", async () => {
    for (const [headers, status] of [
      [{ host }, 401],
      [{ host, cookie: "scourlight-access=wrong" }, 401],
      [{ host, cookie: `x=${word}` }, 401],
      // A name that anybody can write into a request opens nothing.
      [{ host: "localhost:4173" }, 401],
      [{ host, cookie }, 200],
      [{ host: "bench.example", cookie }, 200],
      [{ host: "BENCH.example:4173", cookie }, 200],
      [{ host: "evil.example", cookie }, 403],
      [{ host: "192.168.7.5.evil.example", cookie }, 403],
      [{ host: "192.168.7.50:4173", cookie }, 403],
    ] as const) {
      const answer = await get("/api/enquiries", headers);
      expect(answer.statusCode, JSON.stringify(headers)).toBe(status);
      if (status !== 200) expect(answer.json().error).toMatch(/^[^\n]+$/);
    }
    const page = await get("/", { host });
    expect(page.headers["cross-origin-opener-policy"]).toBeUndefined();
    expect(page.statusCode).toBe(401);
    expect(page.body).toBe("access word needed: open the link that was printed where this server was started\n");
    expect((await get("/assets/index.js", { host })).statusCode).toBe(401);
  });

  it("the link lets a browser in, and another word does not", async () => {
    const answer = await get(`/enter?word=${word}`, { host });
    expect(answer.statusCode).toBe(303);
    expect(answer.headers.location).toBe("/");
    expect(answer.headers["set-cookie"]).toMatch(/^scourlight-access=aaaaa-.*; HttpOnly; SameSite=Lax; Max-Age=\d+$/);
    for (const url of ["/enter?word=zzzzz", "/enter?word=", "/enter?x=1", `/enter?word=${word}&word=${word}`]) {
      const wrong = await get(url, { host });
      expect(wrong.statusCode, url).toBe(401);
      expect(wrong.headers["set-cookie"]).toBeUndefined();
    }
    // the way in is no way round
    expect((await get(`/enter?/api/enquiries`, { host })).statusCode).toBe(401);
    expect((await get("/api/enquiries?/enter?", { host })).statusCode).toBe(401);
  });

  it("words cannot be tried without end", async () => {
    const tries = await Promise.all(Array.from({ length: 40 }, () => get("/enter?word=zzzzz", { host })));
    const codes = tries.map((t) => t.statusCode);
    expect(codes.filter((c) => c === 429).length).toBeGreaterThan(5);
    expect(codes.every((c) => c === 429 || c === 401)).toBe(true);
  });

  it("another site may not write, even with the cookie", async () => {
    const post = (headers: Record<string, string>) =>
      app.inject({ method: "POST", url: "/api/trials/x/run-log", headers: { host, cookie, ...headers }, payload: {} });
    expect((await post({ origin: "http://evil.example" })).statusCode).toBe(403);
    expect((await post({ origin: `https://${host}` })).statusCode).toBe(403);
    expect((await post({ "sec-fetch-site": "cross-site" })).statusCode).toBe(403);
    expect((await post({ origin: `http://${host}` })).statusCode).toBe(400);
  });

  it("is never opened without a word", async () => {
    await expect(startServer({ ...options(), port: 0, host: "0.0.0.0" })).rejects.toThrow("needs an access word");
  });
});

describe("an access word", () => {
  it("is long, new every time, and compared as a whole", () => {
    const words = new Set(Array.from({ length: 200 }, newAccessWord));
    expect(words.size).toBe(200);
    for (const made of words) expect(made).toMatch(/^[a-z2-9]{5}(-[a-z2-9]{5}){3}$/);
    expect(sameWord(word, word)).toBe(true);
    for (const other of ["", "a", word.slice(0, -1), `${word} `, word.toUpperCase(), word.replace("d", "e")])
      expect(sameWord(other, word)).toBe(false);
  });
});

describe("over TLS", () => {
  it("the word is sent back over TLS alone", async () => {
    const { access } = await openAccess({ host: "192.168.7.5", keyFile, certFile });
    const secret = await buildServer({ ...options(), access });
    try {
      const entered = await secret.inject({ url: `/enter?word=${access.word}`, headers: { host } });
      expect(entered.statusCode).toBe(303);
      expect(entered.headers["set-cookie"]).toMatch(/; Secure$/);
    } finally {
      await secret.close();
    }
  });
});

describe("what the command line says of access", () => {
  const tls = { keyFile, certFile };
  it("asks nobody for a word on this machine", async () => {
    const { access, reach, warnings } = await openAccess({});
    expect([access, reach, warnings]).toEqual([{ hosts: [], word: null, tls: null }, [], []]);
    expect((await openAccess({ host: "127.0.0.1", ...tls })).access.word).toBeNull();
  });

  it("makes a word beyond it, and says what goes with it", async () => {
    const plain = await openAccess({ host: "192.168.7.5", name: ["Bench.Example"] });
    expect(plain.access.hosts).toEqual(["192.168.7.5", "bench.example"]);
    expect(plain.access.word).not.toBeNull();
    expect(plain.warnings).toEqual([expect.stringContaining("anybody on this network can read along")]);
    const secret = await openAccess({ host: "192.168.7.5", name: ["bench.example"], ...tls });
    expect(secret.warnings).toEqual(["The certificate does not name 192.168.7.5: browsers will object."]);
    expect((await openAccess({ host: "fe80::1" })).access.hosts).toEqual(["[fe80::1]"]);
    expect((await openAccess({ host: "0.0.0.0" })).reach).not.toContain("127.0.0.1");
  });

  it("refuses in one sentence what does not fit", async () => {
    const noPem = join(folder, "no.pem");
    writeFileSync(noPem, "nothing");
    for (const [flags, line] of [
      [{ keyFile }, "invalid cert file: missing (--key-file and --cert-file belong together)"],
      [{ certFile }, "invalid key file: missing (--key-file and --cert-file belong together)"],
      [{ keyFile: join(folder, "none"), certFile }, "none (cannot be read)"],
      [{ keyFile, certFile: noPem }, "no.pem (is no PEM certificate that goes with the key file)"],
      [{ keyFile: certFile, certFile }, "goes with the key file"],
      [{ host: "workshop" }, "invalid host: workshop (must be an IP address of this machine"],
      [{ host: "192.168.7.5", name: ["a:80"] }, "invalid name: a:80"],
      [{ name: ["bench.example"] }, "needs --host"],
    ] as const) {
      const said = await openAccess(flags).then(
        () => "",
        (error: Error) => error.message,
      );
      expect(said).toContain(line);
      expect(said).toMatch(/^invalid [^\n]+$/);
    }
  });

  it("speaks TLS with what it was given, and takes writes of its own pages", async () => {
    const { access } = await openAccess({ host: "127.0.0.1", keyFile, certFile });
    const server = await startServer({ ...options(), port: 0, access });
    try {
      expect(server.url).toMatch(/^https:/);
      const { port } = new URL(server.url);
      const post = (origin: string) =>
        new Promise<number>((done, fail) => {
          const sent = request(
            { host: "127.0.0.1", port, path: "/api/trials/x/run-log", method: "POST", ca: access.tls!.cert },
            (answer) => {
              answer.resume();
              done(answer.statusCode ?? 0);
            },
          );
          sent.setHeader("origin", origin).setHeader("content-type", "application/json").on("error", fail).end("{}");
        });
      expect(await post(`https://127.0.0.1:${port}`)).toBe(400);
      expect(await post(`http://127.0.0.1:${port}`)).toBe(403);
    } finally {
      await server.close();
    }
  });
});
