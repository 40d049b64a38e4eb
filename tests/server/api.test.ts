import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import type { FastifyInstance } from "fastify";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildServer } from "#server";
import { openStore, type Store } from "#store";

const root = new URL("../..", import.meta.url).pathname;
const host = "127.0.0.1:4173";
let folder = "";
let store: Store;
let app: FastifyInstance;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "server-"));
  store = openStore(join(folder, "test.db"));
  app = await buildServer({
    store,
    webRoot: null,
    examples: join(root, "examples"),
    now: () => "2026-11-25T10:00:00.000Z",
    draws: 8,
  });
});
afterAll(async () => {
  await app.close();
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

type Method = "GET" | "PUT" | "POST";
async function call(method: Method, url: string, body?: unknown, headers: Record<string, string> = {}) {
  const text = typeof body === "string";
  const answer = await app.inject({
    method,
    url: `/api${url}`,
    headers: {
      host,
      ...(body === undefined ? {} : { "content-type": text ? "text/csv" : "application/json" }),
      ...headers,
    },
    ...(body === undefined ? {} : { payload: text ? body : JSON.stringify(body) }),
  });
  return { status: answer.statusCode, json: () => answer.json(), text: answer.body, headers: answer.headers };
}

const small = {
  id: "small",
  title: "Small",
  parts: [
    {
      material: "steel-low-carbon",
      area_m2: 1,
      layers: [{ kind: "alkyd", colour: "mid", thickness_um: 40 }],
      lead: "no",
    },
  ],
};

describe("enquiries", () => {
  it("come back as they were saved, with versions, and a stale change is refused", async () => {
    const first = await call("PUT", "/enquiries/small", { version: 0, enquiry: small });
    expect(first.status).toBe(200);
    expect(first.json().version).toBe(1);
    const second = await call("PUT", "/enquiries/small", { version: 1, enquiry: { ...small, title: "Smaller" } });
    expect(second.json().version).toBe(2);
    const stale = await call("PUT", "/enquiries/small", { version: 1, enquiry: small });
    expect(stale.status).toBe(409);
    expect(stale.json().error).not.toBe("");
    expect((await call("GET", "/enquiries/small")).json().enquiry.title).toBe("Smaller");
    expect((await call("GET", "/enquiries/small/history")).json().versions).toHaveLength(2);
    expect((await call("GET", "/enquiries/small/history/1")).json().enquiry.title).toBe("Small");
    const book = (await call("GET", "/enquiries/small/logbook")).json();
    expect(book.lines.map((l: { what: string; version: number }) => [l.what, l.version])).toEqual([
      ["enquiry", 2],
      ["enquiry", 1],
    ]);
    expect(book.more).toBe(false);
    expect((await call("GET", "/enquiries/none/logbook")).status).toBe(404);
  });

  it("are refused in one clear line", async () => {
    const bad = await call("PUT", "/enquiries/bad", { version: 0, enquiry: { id: "bad", parts: [{ area_m2: -2 }] } });
    expect(bad.status).toBe(400);
    expect(bad.json().error).toContain("invalid parts[0].area_m2: -2 m2");
    expect((await call("GET", "/enquiries/none")).status).toBe(404);
    expect((await call("PUT", "/enquiries/other", { version: 0, enquiry: small })).json().error).toContain(
      "must be other",
    );
    expect((await call("GET", "/nothing")).status).toBe(404);
  });
});

describe("the example", () => {
  it("loads once and twice to the same records, with its outcomes", async () => {
    const { id } = (await call("POST", "/example", {})).json();
    const before = (await call("GET", `/enquiries/${id}/trials`)).json();
    await call("POST", "/example", {});
    const after = (await call("GET", `/enquiries/${id}/trials`)).json();
    expect(after).toEqual(before);
    expect(before.trials).toHaveLength(4);
    expect(before.trials.every((t: { outcomes: unknown[] }) => t.outcomes.length > 10)).toBe(true);
  });

  it("prints its coupon and run sheet", async () => {
    const svg = await call("GET", "/trials/hatch-covers-pulsed/coupons/1.svg");
    expect(svg.text).toMatch(/width="[\d.]+mm"/);
    const pdf = await app.inject({
      method: "GET",
      url: "/api/trials/hatch-covers-pulsed/coupons/1.pdf",
      headers: { host },
    });
    expect(pdf.rawPayload.subarray(0, 5).toString()).toBe("%PDF-");
    const kept = (await call("GET", "/trials/hatch-covers-pulsed")).json().trial;
    const another = await call("PUT", "/trials/hatch-covers-pulsed", { trial: kept, version: 0 });
    expect([another.status, another.json().error]).toEqual([
      409,
      "trial hatch-covers-pulsed has moved on: version 1 is stored, the change was made from version 0",
    ]);
    expect((await call("GET", "/trials/hatch-covers-pulsed/run-sheet.csv")).text).toContain("speed_mm_per_s");
    expect((await call("GET", "/trials/hatch-covers-pulsed/coupons/9.pdf")).json().error).toContain(
      "invalid coupon: 9",
    );
  });
});

describe("outcomes", () => {
  it("are kept row by row; what does not fit is named by its line", async () => {
    const sheet = "patch,residue_percent,metalCondition\n2,3,1\n2000,3,1\n3,101,1\n4,0,0\n";
    const answer = (await call("POST", "/trials/brackets-pulsed/outcomes", sheet)).json();
    expect(answer.accepted).toBeGreaterThanOrEqual(1);
    expect(answer.refused.map((r: { line: number }) => r.line)).toContain(3);
    expect(answer.refused.map((r: { line: number }) => r.line)).toContain(4);
    const rows = [
      { trial: "brackets-pulsed", patch: 2, residue_percent: 12 },
      { trial: "brackets-pulsed", patch: 2, residue_percent: "much" },
    ];
    const put = (await call("PUT", "/trials/brackets-pulsed/outcomes", { outcomes: rows })).json();
    expect(put.accepted).toBe(1);
    expect(put.refused).toHaveLength(1);
  });
});

describe("answers", () => {
  it("are worked, kept, and read as a page and as a PDF", async () => {
    const made = await call("POST", "/enquiries/small/answers", {});
    expect(made.status).toBe(200);
    const { id } = made.json();
    expect((await call("GET", "/enquiries/small/answers")).json().answers[0].id).toBe(id);
    const page = await call("GET", `/answers/${id}/report.html`);
    expect(page.text).toContain("Smaller");
    expect(page.text).not.toMatch(/NaN|undefined/);
    expect(String(page.headers["content-security-policy"])).toContain("default-src 'none'");
    const pdf = await app.inject({ method: "GET", url: `/api/answers/${id}/report.pdf`, headers: { host } });
    expect(pdf.rawPayload.subarray(0, 5).toString()).toBe("%PDF-");
  }, 120_000);
});

describe("who may ask", () => {
  it("only names of this machine, and no other site may write", async () => {
    expect((await call("GET", "/enquiries", undefined, { host: "evil.example" })).status).toBe(403);
    expect((await call("POST", "/example", {}, { origin: "http://evil.example" })).status).toBe(403);
    expect((await call("POST", "/example", {}, { "sec-fetch-site": "cross-site" })).status).toBe(403);
    expect((await call("POST", "/example", {}, { origin: `http://${host}` })).status).toBe(200);
  });

  it("gets a policy that lets nothing from elsewhere in", async () => {
    expect(String((await call("GET", "/enquiries")).headers["content-security-policy"])).toContain(
      "default-src 'self'",
    );
  });
});

describe("the description", () => {
  it("lists every route", async () => {
    const { paths } = (await call("GET", "/openapi.json")).json();
    for (const path of [
      "/api/enquiries",
      "/api/enquiries/{id}",
      "/api/trials/{id}/outcomes",
      "/api/enquiries/{id}/answers",
      "/api/answers/{id}/report.pdf",
      "/api/photos",
      "/api/photos/{sha256}",
      "/api/trials/{id}/gradings/{coupon}",
      "/api/trials/{id}/grade",
      "/api/trials/{id}/frames/{coupon}.pdf",
    ])
      expect(Object.keys(paths)).toContain(path);
  });
});

describe("garbage", () => {
  it("never gets a 500", async () => {
    const paths = [
      "/enquiries/x",
      "/trials/x",
      "/trials/hatch-covers-pulsed",
      "/trials/hatch-covers-pulsed/outcomes",
      "/trials/hatch-covers-pulsed/gradings/1",
      "/trials/hatch-covers-pulsed/grade",
      "/photos",
      "/samples/x",
      "/example",
    ];
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom<Method>("PUT", "POST"),
        fc.constantFrom(...paths),
        fc.oneof(
          fc.json().map((j) => JSON.parse(j)),
          fc.record({
            enquiry: fc.anything({ maxDepth: 3 }),
            version: fc.anything(),
            trial: fc.object(),
            outcomes: fc.array(fc.object()),
            grading: fc.object({ key: fc.constantFrom("id", "trial", "patches", "photos") }),
            photos: fc.array(fc.record({ name: fc.string(), sha256: fc.string() })),
            sample: fc.object({ key: fc.constantFrom("id", "enquiryId", "thicknessMap") }),
          }),
          fc.string(),
        ),
        async (method, path, body) => {
          const { status, text } = await call(
            method,
            path,
            typeof body === "bigint" ? String(body) : jsonable(body) ? body : {},
          );
          expect(status, text).toBeLessThan(500);
        },
      ),
      { numRuns: 150, seed: 11 },
    );
  });

  it("in an address is refused too", async () => {
    for (const url of [
      "/enquiries/%00",
      "/enquiries/..%2f..",
      "/answers/x/report.pdf",
      "/trials/x/coupons/abc.pdf",
      "/trials/x/frames/abc.pdf",
      "/trials/hatch-covers-pulsed/frames/2.9.svg",
      "/photos/x",
      "/enquiries/x/history/-1",
      "/enquiries/%E0%A4%A",
    ]) {
      const { status } = await call("GET", url);
      expect(status, url).toBeGreaterThanOrEqual(400);
      expect(status, url).toBeLessThan(500);
    }
  });

  it("of a text that is no JSON is said to be so", async () => {
    const answer = await app.inject({
      method: "PUT",
      url: "/api/enquiries/x",
      headers: { host, "content-type": "application/json" },
      payload: "{",
    });
    expect(answer.statusCode).toBe(400);
    expect(answer.json().error).toBe("invalid body: the text ends at line 1 column 2 (must be well-formed JSON)");
  });
});

function jsonable(value: unknown): boolean {
  try {
    return JSON.stringify(value) !== undefined;
  } catch {
    return false;
  }
}

it("keeps the example's files where the server reads them", () => {
  expect(JSON.parse(readFileSync(join(root, "examples/enquiry.json"), "utf8")).invented).toBe(true);
});
