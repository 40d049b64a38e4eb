import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import type { FastifyInstance, InjectOptions } from "fastify";
import { parseEnquiryFile, trialToWire } from "#contract";
import { buildServer, loadExample } from "#server";
import { openStore, type Store } from "#store";
import { gradedCoupon, trial as gradedTrial, wireOf } from "../../web/photographs/graded.ts";
import { type BodyShape, exampleOf } from "./example-of.ts";
import { damaged, mediaTypes, mutated, nasty, step } from "./mutate.ts";

const root = new URL("../../..", import.meta.url).pathname;
const host = "localhost:4173";

interface Operation {
  readonly parameters?: readonly { readonly name: string; readonly in: string }[];
  readonly requestBody?: { readonly content: Readonly<Record<string, { readonly schema: BodyShape }>> };
}

/** One route with bodies that it takes. */
export interface Target {
  readonly method: "GET" | "PUT" | "POST" | "DELETE" | "PATCH";
  readonly path: string;
  readonly query: readonly string[];
  readonly bodies: readonly unknown[];
}

export interface Bench {
  readonly app: FastifyInstance;
  readonly store: Store;
  readonly targets: readonly Target[];
  close(): Promise<void>;
}

/** A server with the example in its store, and every route of its own description. */
export async function openBench(): Promise<Bench> {
  const folder = mkdtempSync(join(tmpdir(), "fuzz-"));
  const store = openStore(join(folder, "test.db"));
  const examples = join(root, "examples");
  const app = await buildServer({
    store,
    webRoot: null,
    examples,
    now: () => "2026-11-25T10:00:00.000Z",
    draws: 8,
    limits: { requestsPerMinute: 1e9 },
  });
  await loadExample(store, examples);
  await store.write(async (tx) => {
    await tx.put("enquiry", parseEnquiryFile({ id: gradedTrial.enquiryId, parts: [{ id: gradedTrial.partId }] }));
    await tx.put("trial", trialToWire(gradedTrial, []));
  });
  const { paths, components } = (await app.inject({ url: "/api/openapi.json", headers: { host } })).json();
  const real = await realBodies(app);
  const targets = Object.entries(paths as Record<string, Record<string, Operation>>).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, { parameters = [], requestBody }]): Target => {
      const json = requestBody?.content["application/json"];
      const told = json === undefined ? [] : [exampleOf(json.schema, components.schemas)];
      return {
        method: method.toUpperCase() as Target["method"],
        path,
        query: parameters.filter((p) => p.in === "query").map((p) => p.name),
        bodies: [...(real[path] ?? []), ...told],
      };
    }),
  );
  return {
    app,
    store,
    targets,
    async close() {
      await app.close();
      await store.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** Bodies that are taken as they are. */
async function realBodies(app: FastifyInstance): Promise<Record<string, unknown[]>> {
  const get = async (url: string) => (await app.inject({ url: `/api${url}`, headers: { host } })).json();
  const { enquiry, version } = await get("/enquiries/island-ferry-yard");
  const { trial } = await get("/trials/brackets-pulsed");
  const { outcomes } = await get("/trials/brackets-pulsed/outcomes");
  const csv = readFileSync(join(root, "examples/brackets.pulsed.outcomes.csv"), "utf8");
  return {
    "/api/enquiries/{id}": [{ version, enquiry }],
    "/api/trials/{id}": [{ trial }],
    "/api/trials/{id}/outcomes": [{ outcomes: outcomes.slice(0, 6) }, csv],
    "/api/enquiries/{id}/shop": [{ version: 0, shop: { labour_per_h: 60, ranges: { labour_per_h: [50, 70] } } }],
    "/api/samples/{id}": [
      {
        sample: {
          id: "s1",
          enquiry: "island-ferry-yard",
          part: "brackets",
          label: "one",
          thicknessMap: [{ x_mm: 1, y_mm: 2, thickness_um: 60 }],
        },
      },
    ],
    "/api/trials/{id}/gradings/{coupon}": [
      { version: 0, grading: { ...wireOf(gradedCoupon()), photos: [], flat: null } },
    ],
    "/api/library/files/{id}": [
      { version: 0, file: { source: "own", citation: "Own figures", fromMemory: true, note: "Nothing yet." } },
    ],
    "/api/trials/{id}/grade": [{ photos: [{ name: "a.jpg", sha256: "0".repeat(64) }], printScale: 1 }],
  };
}

const ids = ["island-ferry-yard", "brackets-pulsed", "hatch-covers-continuous", "s1", "steel-low-carbon", "1"];

/** The record that the bodies of a route speak of. */
function idsOf(path: string, method: string): readonly string[] {
  if (heavy(path)) return ["none"];
  if (method === "GET") return ids;
  if (path.includes("/gradings/")) return [gradedTrial.id, "1"];
  if (path.startsWith("/api/trials")) return ["brackets-pulsed"];
  if (path.startsWith("/api/samples")) return ["s1"];
  return path.startsWith("/api/enquiries") ? ["island-ferry-yard"] : ids;
}

/** Work of a minute, or a paper of a second, is asked of records that are not there; tests of their own ask the rest. */
const heavy = (path: string): boolean => /\.(pdf|html)$|\/answers$|papers|crate\.zip$/.test(path);

export interface Shot {
  readonly request: InjectOptions;
  readonly words: string;
}

/** Any request to any route, most of them nearly right. */
export function shots(targets: readonly Target[]): fc.Arbitrary<Shot> {
  return fc.constantFrom(...targets).chain(({ method, path, query, bodies }) => {
    const known = idsOf(path, method);
    const names = (path.match(/\{\w+\}/g) ?? []).length;
    return fc
      .record({
        steps: fc.array(step(known), { minLength: names, maxLength: names }),
        asked: fc.array(fc.tuple(fc.constantFrom(...query, "more", "__proto__", "a[b]"), nasty), { maxLength: 3 }),
        body: bodies.length === 0 ? nasty : fc.oneof({ weight: 5, arbitrary: mutated(bodies) }, nasty),
        damage: damaged,
        type: mediaTypes,
        otherMethod: fc.constantFrom(false, false, false, false, false, false, false, true),
      })
      .map(({ steps, asked, body, damage, type, otherMethod }): Shot => {
        let i = 0;
        const url = path.replace(/\{\w+\}/g, () => steps[i++] ?? "x");
        const search = new URLSearchParams(
          asked.map(([name, value]): [string, string] => [
            name,
            String(typeof value === "object" ? "[object]" : value),
          ]),
        );
        const how = otherMethod ? "DELETE" : method;
        const text = typeof body === "string" ? body : (JSON.stringify(body) ?? "null");
        const plain = type === "application/json" && typeof body === "string" ? "text/csv" : type;
        const request: InjectOptions = {
          method: how,
          url: asked.length === 0 ? url : `${url}?${search}`,
          headers: { host, ...(how === "GET" || plain === null ? {} : { "content-type": plain }) },
          ...(how === "GET" ? {} : { payload: damage(text) }),
        };
        return { request, words: `${how} ${url.slice(0, 200)} ${plain} ${text.slice(0, 300)}` };
      });
  });
}

/** Everything that counts rows: it stays the same where nothing was written. */
export const rowsOf = (store: Store): Promise<string> =>
  store.read(async (r) => JSON.stringify([await r.lastRows(), (await r.photos()).length]));

const inside = /\/(work|tmp|home|usr)\/|node_modules|\.ts\b|\bat \w+ \(|SQLITE|Error:/;

/** What is wrong with the answer to a shot, or null. */
export async function faultOf({ app, store }: Bench, { request, words }: Shot): Promise<string | null> {
  const before = await rowsOf(store);
  const answer = await app.inject(request).catch((error: Error) => {
    // The client itself refuses some addresses; over a socket they are tried elsewhere.
    if (/Invalid URL|invalid character|unescaped/i.test(error.message)) return null;
    throw error;
  });
  if (answer === null || answer.statusCode < 400) return null;
  const { statusCode, body } = answer;
  const said = `${words}\n→ ${statusCode} ${body.slice(0, 400)}`;
  if (statusCode >= 500) return `fault: ${said}`;
  let line: unknown;
  try {
    const json = JSON.parse(body) as Record<string, unknown>;
    if (Object.keys(json).join() !== "error") return `other fields: ${said}`;
    line = json.error;
  } catch {
    return `no JSON: ${said}`;
  }
  if (typeof line !== "string" || line === "" || /[\r\n\u2028\u2029]/.test(line)) return `not one line: ${said}`;
  if (line.length > 4000) return `endless: ${said}`;
  if (inside.test(line.replaceAll(String(request.url), "")) && !inside.test(words)) return `shows the inside: ${said}`;
  if ((await rowsOf(store)) !== before) return `wrote although refused: ${said}`;
  return null;
}
