import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { FastifyInstance } from "fastify";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildServer, loadExample } from "#server";
import { openStore, type Store } from "#store";

const examples = join(new URL("../..", import.meta.url).pathname, "examples");
const host = "localhost:4173";
let folder = "";
let store: Store;
let app: FastifyInstance;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "refusals-"));
  store = openStore(join(folder, "test.db"));
  app = await buildServer({ store, webRoot: null, examples, now: () => "2026-11-25T10:00:00.000Z", draws: 8 });
  await loadExample(store, examples);
});
afterAll(async () => {
  await app.close();
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

function send(method: "GET" | "PUT" | "POST", url: string, payload?: string, type = "application/json") {
  const headers = { host, ...(payload === undefined ? {} : { "content-type": type }) };
  return app.inject({ method, url: `/api${url}`, headers, ...(payload === undefined ? {} : { payload }) });
}

describe("a trial with outcomes", () => {
  it("keeps its plan: the same one may be saved again, another one is refused and changes nothing", async () => {
    const { trial } = (await send("GET", "/trials/brackets-pulsed")).json();
    expect((await send("PUT", "/trials/brackets-pulsed", JSON.stringify({ trial }))).statusCode).toBe(200);
    const other = { ...trial, patches: trial.patches.slice(0, 3) };
    const answer = await send("PUT", "/trials/brackets-pulsed", JSON.stringify({ trial: other }));
    expect(answer.statusCode).toBe(409);
    expect(answer.json().error).toContain("has outcomes already");
    expect((await send("GET", "/trials/brackets-pulsed")).json().trial.patches).toHaveLength(trial.patches.length);
    const fresh = JSON.stringify({ trial: { ...other, id: "fresh" } });
    expect((await send("PUT", "/trials/fresh", fresh)).statusCode).toBe(200);
  });
});

describe("outcomes from CSV", () => {
  it("take over method and limit of the part's acceptance tests", async () => {
    const { enquiry } = (await send("GET", "/enquiries/island-ferry-yard")).json();
    const part = enquiry.parts.find((p: { id: string }) => p.id === "hatch-covers");
    const test = part.acceptance.tests[0];
    test.method = "the yard's own instruction 7";
    const saved = await send("PUT", "/enquiries/island-ferry-yard", JSON.stringify({ version: 1, enquiry }));
    expect(saved.statusCode, saved.body).toBe(200);
    const sheet = `patch,grader,test:${test.kind}\n2,grader 9,pass\n`;
    const sent = await send("POST", "/trials/hatch-covers-pulsed/outcomes", sheet, "text/csv");
    expect(sent.json()).toEqual({ accepted: 1, refused: [] });
    const { trials } = (await send("GET", "/enquiries/island-ferry-yard/trials")).json();
    const kept = trials
      .find((t: { trial: { id: string } }) => t.trial.id === "hatch-covers-pulsed")
      .outcomes.find((o: { grader: string }) => o.grader === "grader 9");
    expect(kept.tests[0].kind).toBe(test.kind);
    expect(kept.tests[0].method).toBe("the yard's own instruction 7");
  });
});

describe("every refusal", () => {
  it("is one line under its number", async () => {
    const big = JSON.stringify({ a: "x".repeat(5_000_001) });
    const table = [
      [await send("PUT", "/enquiries/x", big), 413],
      [await send("POST", "/trials/brackets-pulsed/outcomes", `patch\n${"2\n".repeat(10_000_001)}`, "text/csv"), 413],
      [await send("POST", "/trials/brackets-pulsed/outcomes", "patch\n2\n", "text/plain"), 415],
      [await send("GET", "/enquiries/%E0%A4%A"), 400],
      [await send("GET", "/enquiries/island-ferry-yard/history/77"), 404],
    ] as const;
    for (const [answer, status] of table) {
      expect(answer.statusCode, answer.body).toBe(status);
      expect(Object.keys(answer.json())).toEqual(["error"]);
      expect(answer.json().error).toMatch(/^[^\n]+$/);
    }
    expect(table[4][0].json().error).toBe("there is no version 77 of enquiry island-ferry-yard");
  });

  it("of a half-filled sample shows no NaN", async () => {
    const sample = { id: "x", enquiryId: "x", thicknessMap: [{}], photos: [], note: "" };
    const answer = await send("PUT", "/samples/x", JSON.stringify({ sample }));
    expect(answer.statusCode).toBe(400);
    expect(answer.body).toContain("thicknessMap");
    expect(answer.body).not.toContain("NaN");
  });

  it("comes after too many questions", async () => {
    let status = 200;
    let line = "";
    for (let i = 0; i < 3100 && status === 200; i++) {
      const answer = await send("GET", "/enquiries/none/history");
      status = answer.statusCode;
      line = answer.body;
    }
    expect(status).toBe(429);
    expect(JSON.parse(line).error).toContain("Rate limit exceeded");
  });
});

it("describes every route that it serves", async () => {
  const other = await buildServer({ store, webRoot: null, examples, now: () => "2026-11-25T10:00:00.000Z" });
  const { paths } = (await other.inject({ url: "/api/openapi.json", headers: { host } })).json();
  const described = Object.entries(paths).flatMap(([path, methods]) =>
    Object.keys(methods as object).map((m) => ({ method: m.toUpperCase(), url: path.replace(/\{(\w+)\}/g, ":$1") })),
  );
  for (const { method, url } of described)
    expect(other.hasRoute({ method, url } as never), `${method} ${url}`).toBe(true);
  const served = (other.printRoutes({ commonPrefix: false }).match(/\b(GET|PUT|POST|PATCH|DELETE)\b/g) ?? []).length;
  expect(described).toHaveLength(served - 2); // all but the description itself and its page
  await other.close();
});
