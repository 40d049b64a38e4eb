import { mkdtempSync, rmSync } from "node:fs";
import { type AddressInfo, connect } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { FastifyInstance } from "fastify";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildServer, loadExample } from "#server";
import { openStore, type Store } from "#store";
import { jsonDepth } from "../../src/server/json-body.ts";
import { serverLimits } from "../../src/server/limits.ts";

const examples = join(new URL("../..", import.meta.url).pathname, "examples");
const host = "localhost:4173";
const now = () => "2026-11-25T10:00:00.000Z";
let folder = "";
let store: Store;
let app: FastifyInstance;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "limits-"));
  store = openStore(join(folder, "test.db"));
  await loadExample(store, examples);
  const limits = { jsonBytes: 20_000, csvBytes: 500, archiveBytes: 1000, headTime: 200, requestTime: 500 };
  app = await buildServer({ store, webRoot: null, examples, now, limits });
  await app.listen({ port: 0, host: "127.0.0.1" });
});
afterAll(async () => {
  await app.close();
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

const send = (method: "PUT" | "POST", url: string, payload: string | Buffer, type = "application/json") =>
  app.inject({ method, url: `/api${url}`, headers: { host, "content-type": type }, payload });

/** What comes back for a piece of a request that never ends; ends when the server hangs up. */
const unfinished = (piece: string): Promise<string> =>
  new Promise((resolve) => {
    let said = "";
    const socket = connect((app.server.address() as AddressInfo).port, "127.0.0.1", () => socket.write(piece));
    socket.on("data", (data) => {
      said += data.toString();
    });
    socket.on("close", () => resolve(said));
    socket.on("error", () => resolve(said));
  });

describe("size", () => {
  it("of JSON, CSV, archive and photograph has an end", async () => {
    for (const answer of [
      await send("PUT", "/enquiries/x", JSON.stringify({ enquiry: "x".repeat(20_000) })),
      await send("POST", "/trials/brackets-pulsed/outcomes", `patch\n${"2\n".repeat(300)}`, "text/csv"),
      await send("POST", "/archives", Buffer.alloc(1001), "application/zip"),
      await send("PUT", "/photos", Buffer.alloc(30_000_001), "image/jpeg"),
    ]) {
      expect(answer.statusCode).toBe(413);
      expect(answer.json().error).toMatch(/^invalid body: too large/);
    }
  });

  it("of photographs asked for at once has an end too", async () => {
    const photos = Array.from({ length: 101 }, (_, i) => ({ name: `${i}.jpg`, sha256: String(i).padStart(64, "0") }));
    const answer = await send("POST", "/trials/brackets-pulsed/grade", JSON.stringify({ photos }));
    expect(answer.json().error).toBe("invalid photos: a list of 101 (at most 100 of them)");
  });
});

describe("JSON", () => {
  it("may be nested as deep as records are, and no deeper", async () => {
    const nested = (depth: number) => "[".repeat(depth) + "]".repeat(depth);
    expect(jsonDepth('{"a":["[[[\\"[[",{"b":[]}]}')).toBe(4);
    const most = serverLimits.jsonDepth;
    expect((await send("PUT", "/enquiries/x", nested(most))).json().error).toBe(
      `invalid body: a list of 1 (must be an object)`,
    );
    for (const text of [nested(most + 1), "[".repeat(9000)])
      expect((await send("PUT", "/enquiries/x", text)).json().error).toMatch(
        /^invalid body: nested \d+ deep \(at most 40 lists and objects in one another\)$/,
      );
  });

  it("may say its character set", async () => {
    const body = JSON.stringify({ version: 0, enquiry: { id: "charset", title: "Größe", parts: [{}] } });
    const said = await send("PUT", "/enquiries/charset", body, "application/json; charset=utf-8");
    expect(said.json().enquiry.title).toBe("Größe");
    expect((await send("PUT", "/enquiries/charset", "", "application/json")).json().error).toBe(
      "invalid body: empty (must hold JSON)",
    );
  });

  it("has no field that reaches behind a record", async () => {
    for (const name of ["__proto__", "constructor", "prototype"])
      expect((await send("PUT", "/enquiries/x", `{"enquiry":{"parts":[{"${name}":{"a":1}}]}}`)).json().error).toBe(
        `invalid body: ${name} (is no field of any record)`,
      );
  });
});

describe("requests that come in drops", () => {
  it("are cut off: a head that never ends, a body that never ends", async () => {
    expect(await unfinished("GET /api/health HTTP/1.1\r\nHost: localhost\r\nX: ")).toMatch(
      /^HTTP\/1\.1 408 [\s\S]*\{"error":"invalid request: it did not come to its end in time"\}$/,
    );
    expect(
      await unfinished(
        'PUT /api/enquiries/x HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: 100\r\n\r\n{"a',
      ),
    ).toMatch(/^HTTP\/1\.1 408 /);
    expect(await unfinished("NO HTTP AT ALL\r\n\r\n")).toMatch(
      /\{"error":"invalid request: it cannot be read as HTTP"\}$/,
    );
    expect(await unfinished(`GET / HTTP/1.1\r\nX: ${"y".repeat(20_000)}\r\n\r\n`)).toContain("its head is too large");
  });

  it("find the usual times set, and not so short that work of minutes is cut", async () => {
    const usual = await buildServer({ store, webRoot: null, examples, now });
    const { headersTimeout, requestTimeout, keepAliveTimeout, maxConnections, timeout } = usual.server;
    expect({ headersTimeout, requestTimeout, keepAliveTimeout, maxConnections }).toEqual({
      headersTimeout: serverLimits.headTime,
      requestTimeout: serverLimits.requestTime,
      keepAliveTimeout: serverLimits.idleTime,
      maxConnections: serverLimits.connections,
    });
    // An answer is worked out for a minute or more while its connection is silent.
    expect(timeout).toBe(0);
    await usual.close();
  });
});

it("answers so many questions a minute and no more", async () => {
  const strict = await buildServer({ store, webRoot: null, examples, now, limits: { requestsPerMinute: 3 } });
  const states: number[] = [];
  for (let i = 0; i < 5; i++) states.push((await strict.inject({ url: "/api/health", headers: { host } })).statusCode);
  expect(states).toEqual([200, 200, 200, 429, 429]);
  await strict.close();
});

it("is bound to this machine and gives every answer a policy", async () => {
  expect((app.server.address() as AddressInfo).address).toBe("127.0.0.1");
  for (const url of ["/api/health", "/api/docs", "/api/openapi.json", "/api/nothing"]) {
    const { headers } = await app.inject({ url, headers: { host } });
    expect(String(headers["content-security-policy"]), url).toContain("default-src 'self'");
    expect(headers["x-content-type-options"], url).toBe("nosniff");
  }
  const stranger = await app.inject({ url: "/api/health", headers: { host: "example.org" } });
  expect(stranger.statusCode).toBe(403);
  const foreign = { host, origin: "http://example.org", "content-type": "application/json" };
  expect((await app.inject({ method: "POST", url: "/api/example", headers: foreign, payload: "{}" })).statusCode).toBe(
    403,
  );
  const zip = { ...foreign, "content-type": "application/zip" };
  expect((await app.inject({ method: "POST", url: "/api/archives", headers: zip, payload: "x" })).statusCode).toBe(403);
});
