import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { FastifyInstance } from "fastify";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildServer } from "#server";
import { openStore, type Store } from "#store";

const root = new URL("../..", import.meta.url).pathname;
let folder = "";
let store: Store;
let app: FastifyInstance;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "papers-"));
  store = openStore(join(folder, "test.db"));
  app = await buildServer({
    store,
    webRoot: null,
    examples: join(root, "examples"),
    now: () => "2026-11-25T10:00:00.000Z",
    draws: 8,
  });
  await call("PUT", "/enquiries/small", { version: 0, enquiry: small });
});
afterAll(async () => {
  await app.close();
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

async function call(method: "GET" | "PUT" | "POST", url: string, body?: unknown) {
  const answer = await app.inject({
    method,
    url: `/api${url}`,
    headers: { host: "127.0.0.1:4173", ...(body === undefined ? {} : { "content-type": "application/json" }) },
    ...(body === undefined ? {} : { payload: JSON.stringify(body) }),
  });
  return {
    status: answer.statusCode,
    json: () => answer.json(),
    text: answer.body,
    bytes: answer.rawPayload,
    headers: answer.headers,
  };
}

const small = {
  id: "small",
  title: "Small",
  invented: true,
  parts: [
    {
      id: "cover",
      name: "Cover",
      material: "steel-low-carbon",
      area_m2: 1,
      count: 3,
      layers: [{ kind: "alkyd", colour: "mid", thickness_um: 40 }],
      acceptance: { tests: [{ kind: "pull-off", method: "ISO 4624", limit: "at least 5 MPa" }] },
      lead: "no",
    },
  ],
};

const pagesOf = (bytes: Buffer): number => bytes.toString("latin1").match(/\/Type\s*\/Page\b/g)?.length ?? 0;

describe("shop figures of an enquiry", () => {
  it("are none at first, then kept in versions, and an older one can be taken back", async () => {
    expect((await call("GET", "/enquiries/small/shop")).json()).toEqual({ version: 0, savedAt: null, shop: {} });
    const first = await call("PUT", "/enquiries/small/shop", { version: 0, shop: { labour_per_h: 80 } });
    expect(first.json()).toMatchObject({ version: 1, shop: { labour_per_h: 80 } });
    const second = await call("PUT", "/enquiries/small/shop", { version: 1, shop: { labour_per_h: "95" } });
    expect(second.status).toBe(400);
    await call("PUT", "/enquiries/small/shop", { version: 1, shop: { labour_per_h: 95, handling_s: "3 min" } });
    expect((await call("GET", "/enquiries/small/shop")).json()).toMatchObject({
      version: 2,
      shop: { labour_per_h: 95, handling_s: 180 },
    });
    expect((await call("GET", "/enquiries/small/shop/history")).json().versions).toHaveLength(2);
    expect((await call("GET", "/enquiries/small/shop/history/1")).json().shop).toEqual({ labour_per_h: 80 });
    expect((await call("GET", "/enquiries/small/shop/history/7")).status).toBe(404);
  });

  it("are refused in one line, and a stale change is refused", async () => {
    const line = async (shop: unknown) =>
      (await call("PUT", "/enquiries/small/shop", { version: 2, shop })).json().error;
    expect(await line({ labour_per_h: -1 })).toBe("invalid labour_per_h: -1 (must be at least 0)");
    expect(await line({ handling_s: -3 })).toBe("invalid handling_s: -3 s (must be at least 0 s)");
    expect(await line({ currency: "euros" })).toMatch(/^invalid currency: euros \(/);
    expect(await line({ labour_per_h: 50, ranges: { labour_per_h: [60, 70] } })).toMatch(/^invalid range of labour: /);
    expect(await line({ wages: 50 })).toMatch(/^invalid wages: 50 \(unknown field; known: /);
    expect(await line("cheap")).toBe("invalid shop: cheap (must be an object)");
    expect((await call("PUT", "/enquiries/small/shop", { version: 1, shop: {} })).status).toBe(409);
    expect((await call("PUT", "/enquiries/none/shop", { version: 0, shop: {} })).status).toBe(404);
    expect((await call("GET", "/enquiries/none/shop")).status).toBe(404);
  });
});

describe("what goes along with an answer", () => {
  let id = "";
  beforeAll(async () => {
    id = (await call("POST", "/enquiries/small/answers", {})).json().id;
  }, 120_000);

  it("is drawn as asked, and what cannot be asked is refused before the work begins", async () => {
    const ask = async (body: unknown) => (await call("POST", "/enquiries/small/answers", body)).json().error;
    expect(await ask({ draws: 4 })).toBe("invalid draws: 4 (must be at least 8)");
    expect(await ask({ seed: -1 })).toBe("invalid seed: -1 (must be at least 0)");
    expect(await ask({ sead: 1 })).toMatch(/^invalid sead: 1 \(unknown field; known: seed, draws\)$/);
    expect((await call("GET", `/answers/${id}/details`)).json()).toMatchObject({ seed: 1, draws: 8 });
  });

  it("is printed under another head", async () => {
    const page = async (query: string) => (await call("GET", `/answers/${id}/report.html?${query}`)).text;
    const usual = await page("");
    expect(usual).toContain("revision 1 · 2026-11-25 · not yet approved");
    const other = await page("documentId=D-17&revision=2&approver=A.%20Person&date=2026-12-01");
    expect(other).toContain("document D-17 · revision 2 · 2026-12-01 · approved by A. Person");
    expect(await page("documentId=&revision=")).toBe(usual);
    expect(await page("date=2026-02-30")).toBe('{"error":"invalid date: 2026-02-30 (must be a day that there is)"}');
    expect(await page(`revision=${"9".repeat(30)}`)).toContain("(at most 20 characters)");
    expect(await page("approver=%3Cb%3Ex")).toContain("&lt;b&gt;x");
  });

  it("is kept with it: delivery, time, cost by the shop's figures, hazards, fume, cautions", async () => {
    const answer = await call("GET", `/answers/${id}/details`);
    expect(answer.status).toBe(200);
    const { shopVersion, details } = answer.json();
    expect(shopVersion).toBe(2);
    const [part] = details.parts;
    expect(part.footing).toBe("predicted");
    expect(part.setting.passes).toBeGreaterThanOrEqual(1);
    const { job } = part;
    const shares = job.times.reduce((sum: number, t: { share: number }) => sum + t.share, 0);
    expect(shares).toBeCloseTo(1, 9);
    expect(job.times.find((t: { kind: string }) => t.kind === "handling").hours_h).toBeCloseTo((3 * 180) / 3600, 9);
    expect(job.cost_per_m2.middle * 3).toBeCloseTo(job.cost.middle, 6);
    expect(job.moves.find((m: { figure: string }) => m.figure === "labour").high).toBeGreaterThan(95);
    expect(job.breakEven.state).toBe("not entered");
    expect(part.hazard.distances[0].eye_m).toBeGreaterThan(0);
    expect(part.fume.length).toBeGreaterThan(0);
    expect(part.cautions.length).toBeGreaterThan(0);
    expect(part.notMeasured).toEqual(["pull-off (ISO 4624)"]);
    expect(part.evidence).toBeNull();
    expect((await call("GET", "/answers/answer-99/details")).status).toBe(404);
    const { cost_per_m2: cost } = job;
    expect((await call("GET", `/answers/${id}/report.html`)).text).toContain(
      `${Number(cost.low.toPrecision(3))} to ${Number(cost.high.toPrecision(3))} ${job.currency}/m²`,
    );
  });

  it.each([
    ["procedure", 1],
    ["commissioning", 2],
    ["offer", 1],
  ])("is set as %s, PDF and page", async (kind, pages) => {
    const pdf = await call("GET", `/enquiries/small/papers/cover/${kind}`);
    expect(pdf.status).toBe(200);
    expect(pdf.bytes.subarray(0, 5).toString()).toBe("%PDF-");
    expect(pagesOf(pdf.bytes)).toBe(pages);
    expect(String(pdf.headers["content-disposition"])).toContain(`small.cover.${kind}.pdf`);
    const page = await call(
      "GET",
      `/enquiries/small/papers/cover/${kind}?format=html&revision=7b&approver=R.%20Example`,
    );
    expect(page.text).toContain("7b");
    expect(page.text).toContain("R. Example");
    expect(page.text).toContain("2026-11-25");
    expect(page.text).not.toMatch(/NaN|undefined|Infinity/);
    expect(String(page.headers["content-security-policy"])).toContain("default-src 'none'");
    const german = await call("GET", `/enquiries/small/papers/cover/${kind}?format=html&language=de`);
    expect(german.text).toContain('lang="de"');
  });

  it("says of an offer how long it holds", async () => {
    const at = "/enquiries/small/papers/cover/offer?format=html";
    expect((await call("GET", `${at}&validUntil=2027-01-31`)).text).toContain("2027-01-31");
    expect((await call("GET", `${at}&validUntil=`)).status).toBe(200);
    for (const wrong of ["soon", "2027-02-30", "2027-13-01"])
      expect((await call("GET", `${at}&validUntil=${wrong}`)).json().error).toMatch(
        new RegExp(`^invalid validUntil: ${wrong} \\(must be a day`),
      );
  });

  it("is refused in one line where the paper asked for is none", async () => {
    const line = async (path: string) => {
      const answer = await call("GET", `/enquiries/${path}`);
      return [answer.status, answer.json().error];
    };
    expect(await line("small/papers/cover/menu")).toEqual([
      400,
      "invalid kind: menu (must be one of: procedure, commissioning, offer)",
    ]);
    expect((await line("small/papers/cover/offer?format=docx"))[1]).toBe(
      "invalid format: docx (must be one of: pdf, html)",
    );
    expect((await line("small/papers/cover/offer?language=fr"))[1]).toMatch(/^invalid language: fr \(must be en or de/);
    expect((await line(`small/papers/cover/offer?revision=${"9".repeat(21)}`))[1]).toMatch(/^invalid revision: /);
    expect(await line("small/papers/lid/offer")).toEqual([404, "there is no part lid in this answer"]);
    expect((await line("small/papers/cover/offer?answer=answer-99"))[0]).toBe(404);
    expect((await line("none/papers/cover/offer"))[0]).toBe(404);
  });

  it("stays as it was when the shop figures move on", async () => {
    const before = (await call("GET", `/answers/${id}/details`)).json();
    const page = (await call("GET", "/enquiries/small/papers/cover/offer?format=html")).text;
    await call("PUT", "/enquiries/small/shop", { version: 2, shop: { labour_per_h: 300 } });
    expect((await call("GET", `/answers/${id}/details`)).json()).toEqual(before);
    expect((await call("GET", "/enquiries/small/papers/cover/offer?format=html")).text).toBe(page);
  });

  it("tells whether what it stands on was changed since", async () => {
    const now = async () => (await call("GET", "/enquiries/small/answers")).json().changedAt;
    const then = (await call("GET", `/answers/${id}/details`)).json().changedAt;
    expect(then).toMatch(/^\d{4}-/);
    expect(await now()).toBe(then);
    await new Promise((resolve) => setTimeout(resolve, 5));
    await call("PUT", "/enquiries/small", { version: 1, enquiry: { ...small, title: "Smaller" } });
    expect((await now()) > then).toBe(true);
    expect((await call("GET", `/answers/${id}/details`)).json().changedAt).toBe(then);
  });

  it("is listed in the description", async () => {
    const { paths } = (await call("GET", "/openapi.json")).json();
    const details = paths["/api/answers/{id}/details"].get.responses["200"].content["application/json"].schema;
    expect(Object.keys(details.properties)).toEqual(["id", "seed", "draws", "shopVersion", "changedAt", "details"]);
    expect(Object.keys(paths["/api/enquiries/{id}/shop"])).toEqual(["get", "put"]);
    const asked = paths["/api/enquiries/{id}/papers/{part}/{kind}"].get.parameters.map((p: { name: string }) => p.name);
    expect(asked).toEqual(expect.arrayContaining(["format", "language", "revision", "approver", "validUntil"]));
    expect(paths["/api/trials/{id}/run-sheet.pdf"]).toBeDefined();
  });
});

describe("the run sheet of a trial", () => {
  it("is set as PDF and as a page, and outcomes recorded later show as a change", async () => {
    await call("POST", "/example", {});
    const changed = async () => (await call("GET", "/enquiries/island-ferry-yard/answers")).json().changedAt;
    const before = await changed();
    await new Promise((resolve) => setTimeout(resolve, 5));
    const row = { trial: "hatch-covers-pulsed", patch: 2, residue_percent: 12 };
    await call("PUT", "/trials/hatch-covers-pulsed/outcomes", { outcomes: [row] });
    expect((await changed()) > before).toBe(true);
    const pdf = await call("GET", "/trials/hatch-covers-pulsed/run-sheet.pdf");
    expect(pdf.bytes.subarray(0, 5).toString()).toBe("%PDF-");
    expect(String(pdf.headers["content-disposition"])).toContain("hatch-covers-pulsed.run-sheet.pdf");
    const page = await call("GET", "/trials/hatch-covers-pulsed/run-sheet.html?language=de");
    expect(page.text).toContain('lang="de"');
    expect((await call("GET", "/trials/none/run-sheet.pdf")).status).toBe(404);
  });
});
