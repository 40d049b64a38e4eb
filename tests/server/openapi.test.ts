import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { FastifyInstance } from "fastify";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildServer, loadExample } from "#server";
import { openStore, type Store } from "#store";

const root = new URL("../..", import.meta.url).pathname;
const host = "localhost:4173";

interface Media {
  readonly content?: Record<string, { schema: Record<string, unknown> }>;
  readonly description?: string;
}
interface Operation {
  readonly operationId: string;
  readonly summary: string;
  readonly tags: string[];
  readonly parameters?: { name: string; in: string; required?: boolean; schema: object }[];
  readonly requestBody?: Media;
  readonly responses: Record<string, Media>;
}
interface Document {
  readonly openapi: string;
  readonly info: { title: string; version: string };
  readonly paths: Record<string, Record<string, Operation>>;
  readonly components: { schemas: Record<string, object> };
}
interface Check {
  (value: unknown): boolean;
  readonly errors?: unknown;
}
interface Judge {
  addSchema(schema: object, key: string): void;
  compile(schema: object): Check;
}

let folder = "";
let store: Store;
let app: FastifyInstance;
let document: Document;
let judge: Judge;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "openapi-"));
  store = openStore(join(folder, "test.db"));
  const examples = join(root, "examples");
  app = await buildServer({ store, webRoot: null, examples, now: () => "2026-11-25T10:00:00.000Z", draws: 8 });
  await loadExample(store, examples);
  document = (await get("/api/openapi.json")).json();
  // The validator that the server's own framework brings along; it knows nothing of the schemas' makers.
  const Ajv = createRequire(import.meta.url)("ajv/dist/2020.js") as new (options: object) => Judge;
  judge = new Ajv({ strict: false, validateFormats: false });
  judge.addSchema(document, "api");
});
afterAll(async () => {
  await app.close();
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

const get = (url: string) => app.inject({ url, headers: { host } });
const operations = () =>
  Object.entries(document.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => ({ path, method, operation, name: `${method} ${path}` })),
  );

/** Every `$ref` of a value. */
function refsIn(value: unknown): string[] {
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, part]) =>
    key === "$ref" && typeof part === "string" ? [part] : refsIn(part),
  );
}

const at = (pointer: string): unknown =>
  pointer
    .slice(2)
    .split("/")
    .reduce<unknown>((value, step) => (value as Record<string, unknown> | undefined)?.[step], document);

/** The check of a shape in the description, with the shapes that it names. */
const checkOf = (path: string, method: string, status: string): Check => {
  const step = (text: string) => text.replaceAll("~", "~0").replaceAll("/", "~1");
  const where = `paths/${step(path)}/${method}/responses/${status}/content/application~1json/schema`;
  return judge.compile({ $ref: `api#/${encodeURI(where).replaceAll("{", "%7B").replaceAll("}", "%7D")}` });
};

describe("the description", () => {
  it("is OpenAPI 3.1 in its parts: version, references, names, parameters", () => {
    expect(document.openapi).toMatch(/^3\.1\.\d+$/);
    expect(document.info.version).toBe(JSON.parse(readFileSync(join(root, "package.json"), "utf8")).version);
    for (const ref of new Set(refsIn(document))) expect(at(ref), ref).toBeTypeOf("object");
    for (const name of Object.keys(document.components.schemas)) expect(name).toMatch(/^[\w.-]+$/);
    const ids = operations().map((o) => o.operation.operationId);
    expect(new Set(ids).size).toBe(ids.length);
    for (const { path, operation, name } of operations()) {
      const named = [...path.matchAll(/\{(\w+)\}/g)].map((m) => m[1]).sort();
      const told = (operation.parameters ?? []).filter((p) => p.in === "path");
      expect(told.map((p) => p.name).sort(), name).toEqual(named);
      for (const parameter of operation.parameters ?? []) {
        expect(["path", "query"], name).toContain(parameter.in);
        if (parameter.in === "path") expect(parameter.required, name).toBe(true);
        expect(parameter.schema, `${name} ${parameter.name}`).toBeTypeOf("object");
      }
    }
  });

  it("tells of every route what it takes, what it gives and how it refuses", () => {
    for (const { method, operation, name } of operations()) {
      expect(operation.summary?.length, name).toBeGreaterThan(5);
      expect(operation.tags, name).toHaveLength(1);
      if (method === "put" || method === "post") {
        const bodies = Object.values(operation.requestBody?.content ?? {});
        expect(bodies.length, `${name}: body`).toBeGreaterThan(0);
        for (const { schema } of bodies)
          expect(schema.additionalProperties === undefined || "properties" in schema, name).toBe(true);
      }
      const good = Object.entries(operation.responses).filter(([status]) => status.startsWith("2"));
      expect(good.length, `${name}: answer`).toBe(1);
      for (const [, { content = {} }] of good) {
        expect(Object.keys(content).length, name).toBeGreaterThan(0);
        for (const [type, { schema }] of Object.entries(content))
          if (type === "application/json") expect("properties" in schema || "$ref" in schema, name).toBe(true);
          else expect(schema, name).toMatchObject({ type: "string", format: "binary" });
      }
      for (const status of ["400", "403", "429", "500"])
        expect(operation.responses[status]?.content, `${name} ${status}`).toEqual({
          "application/json": { schema: { $ref: "#/components/schemas/refusal" } },
        });
    }
  });

  it("has no operation that the server lacks and lacks none that it has", () => {
    for (const { path, method, name } of operations())
      expect(
        app.hasRoute({ method: method.toUpperCase(), url: path.replace(/\{(\w+)\}/g, ":$1") } as never),
        name,
      ).toBe(true);
  });
});

/** What stands for the names in addresses when the example is asked. */
const values: Record<string, string> = { version: "1", coupon: "1", part: "hatch-covers", kind: "metals", row: "1" };
const ids: Record<string, string> = {
  enquiries: "island-ferry-yard",
  trials: "brackets-pulsed",
  library: "steel-low-carbon",
};

describe("real answers", () => {
  it("of every route that gives JSON have the shape that is told of them", async () => {
    let held = 0;
    for (const { path, method, operation } of operations()) {
      if (method !== "get") continue;
      const tag = operation.tags[0] ?? "";
      const url = path.replace(/\{(\w+)\}/g, (_, name: string) =>
        name === "id" ? (ids[tag] ?? "none") : (values[name] ?? "none"),
      );
      const json = operation.responses["200"]?.content?.["application/json"];
      if (json === undefined) continue;
      const answer = await get(url);
      const status = String(answer.statusCode);
      expect(["200", "404"], `${url}: ${answer.body.slice(0, 200)}`).toContain(status);
      const check = checkOf(path, method, status);
      expect(check(answer.json()), `${url}: ${JSON.stringify(check.errors)}`).toBe(true);
      if (status === "200") held += 1;
    }
    expect(held).toBeGreaterThan(8);
  });

  it("of changes too, and a shape that is not told is found", async () => {
    const put = (url: string, body: object) =>
      app.inject({
        method: "PUT",
        url,
        headers: { host, "content-type": "application/json" },
        payload: JSON.stringify(body),
      });
    const { trial } = (await get("/api/trials/brackets-pulsed")).json();
    const { enquiry, version } = (await get("/api/enquiries/island-ferry-yard")).json();
    for (const [path, url, body] of [
      ["/api/trials/{id}", "/api/trials/brackets-pulsed", { trial }],
      ["/api/enquiries/{id}", "/api/enquiries/island-ferry-yard", { enquiry, version }],
      ["/api/enquiries/{id}/shop", "/api/enquiries/island-ferry-yard/shop", { version: 0, shop: { labour_per_h: 70 } }],
      [
        "/api/trials/{id}/outcomes",
        "/api/trials/brackets-pulsed/outcomes",
        { outcomes: [{ trial: "brackets-pulsed", patch: 1 }, 7] },
      ],
    ] as const) {
      const answer = await put(url, body);
      expect(answer.statusCode, answer.body).toBe(200);
      const check = checkOf(path, "put", "200");
      expect(check(answer.json()), JSON.stringify(check.errors)).toBe(true);
      expect(check({ ...(answer.json() as object), more: 1 }), url).toBe(false);
      expect(check({}), url).toBe(false);
    }
  });
});

describe("the page of the routes", () => {
  it("names every route and every shape, and brings no script", async () => {
    const answer = await get("/api/docs");
    expect(answer.headers["content-type"]).toContain("text/html");
    for (const { operation } of operations()) expect(answer.body).toContain(`id="${operation.operationId}"`);
    for (const target of answer.body.matchAll(/href="#([^"]+)"/g)) expect(answer.body).toContain(`id="${target[1]}"`);
    expect(answer.body).not.toMatch(/<script| on\w+=|https?:\/\//);
    const nonce = /<style nonce="([^"]+)">/.exec(answer.body)?.[1] ?? "none";
    expect(String(answer.headers["content-security-policy"])).toContain(`'nonce-${nonce}'`);
  });
});
