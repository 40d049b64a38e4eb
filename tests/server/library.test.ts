import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { FastifyInstance } from "fastify";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildServer } from "#server";
import { openStore, type Store } from "#store";
import { ownFiles } from "../../src/library/own-files.ts";
import { libraryOf } from "../../src/server/kept-answer.ts";

const root = new URL("../..", import.meta.url).pathname;
const plannedTrial = JSON.parse(readFileSync(join(root, "examples/brackets.pulsed.trial.json"), "utf8"));
let folder = "";
let store: Store;
let app: FastifyInstance;
let clock = 0;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "library-"));
  store = openStore(join(folder, "test.db"));
  app = await buildServer({
    store,
    webRoot: null,
    examples: join(root, "examples"),
    now: () => new Date(Date.UTC(2026, 10, 25, 10, 0, clock++)).toISOString(),
    draws: 4,
  });
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
  return { status: answer.statusCode, json: () => answer.json(), text: answer.body };
}

type Group = "metals" | "layers" | "setups";
type Loose = Record<string, unknown>;

/** An own file with one entry copied from ours. */
function copied(group: Group, from: string, id: string, change: (entry: Loose) => void = () => {}): Loose {
  const file = ownFiles.find((f) => f[group]?.some((e) => e.id === from))!;
  const entry = structuredClone(file[group]!.find((e) => e.id === from)) as unknown as Loose;
  entry.id = id;
  entry.name = `Own ${id}`;
  change(entry);
  return {
    source: `own-${id}`,
    citation: "Certificate 4711 of the works laboratory",
    fromMemory: false,
    note: "One heat of our own.",
    [group]: [entry],
  };
}
const save = (id: string, version: number, file: unknown) => call("PUT", `/library/files/${id}`, { version, file });
const enquiry = (id: string, material: string, kind: string) => ({
  id,
  title: `Title ${id}`,
  parts: [{ id: "brackets", name: "Brackets", material, layers: [{ kind, colour: "mid", thickness_um: 40 }] }],
});
const keep = (id: string, material: string, kind: string) =>
  call("PUT", `/enquiries/${id}`, { version: 0, enquiry: enquiry(id, material, kind) });
const dependants = async (shelf: string, id: string) =>
  (await call("GET", `/library/dependants/${shelf}/${id}`)).json();

describe("the library of a store", () => {
  it("is ours at first, and says so of every entry", async () => {
    const { metals, layers, setups, fume } = (await call("GET", "/library")).json();
    for (const list of [metals, layers, setups, fume]) {
      expect(list.length).toBeGreaterThan(1);
      for (const e of list) expect(e).toMatchObject({ state: "ours", file: null, version: null });
    }
    expect(metals[0].entry.density.source).toBe("memory-metals");
    expect((await call("GET", "/library/files")).json()).toEqual({ files: [], refused: [] });
  });

  it("takes own entries in, keeps every version, and gives an older one back", async () => {
    const first = await save("works-steel", 0, copied("metals", "steel-low-carbon", "works-steel"));
    expect(first.status).toBe(200);
    expect(first.json()).toMatchObject({ id: "works-steel", version: 1 });
    const lighter = copied("metals", "steel-low-carbon", "works-steel", (m) => {
      (m.density as Loose).low = 7840;
    });
    expect((await save("works-steel", 1, lighter)).json().version).toBe(2);
    const { metals } = (await call("GET", "/library")).json();
    const mine = metals.find((m: { entry: Loose }) => m.entry.id === "works-steel");
    expect(mine).toMatchObject({ state: "own", file: "works-steel", version: 2 });
    expect(mine.entry.density).toMatchObject({ low: 7840, source: "own-works-steel", fromMemory: false });
    const history = (await call("GET", "/library/files/works-steel/history")).json().versions;
    expect(history.map((v: { version: number }) => v.version)).toEqual([2, 1]);
    const old = (await call("GET", "/library/files/works-steel/history/1")).json();
    expect(old.file.metals[0].density.low).toBe(7830);
    expect((await save("works-steel", 2, old.file)).json().version).toBe(3);
    expect((await call("GET", "/library/files/works-steel")).json().file).toEqual(old.file);
    expect((await call("GET", "/library/files/none")).status).toBe(404);
    expect((await call("GET", "/library/files/works-steel/history/9")).status).toBe(404);
  });

  it("says which entry replaces one of ours", async () => {
    const file = copied("setups", "pulsed-50", "pulsed-50", (s) => {
      s.replaces = true;
      s.wallPlugEfficiency = 0.2;
    });
    expect((await save("our-fifty", 0, file)).status).toBe(200);
    const { setups } = (await call("GET", "/library")).json();
    const fifty = setups.find((s: { entry: Loose }) => s.entry.id === "pulsed-50");
    expect(fifty).toMatchObject({ state: "replaces ours", file: "our-fifty", entry: { wallPlugEfficiency: 0.2 } });
    expect(setups).toHaveLength(ownFiles.flatMap((f) => f.setups ?? []).length);
  });
});

describe("a change that does not fit", () => {
  const line = async (id: string, version: number, file: unknown) => {
    const before = (await call("GET", "/library/files")).text;
    const answer = await save(id, version, file);
    expect(answer.status, answer.text).toBeGreaterThanOrEqual(400);
    expect((await call("GET", "/library/files")).text).toBe(before);
    return [answer.status, answer.json().error];
  };

  it("is refused in one sentence and nothing is lost", async () => {
    const metal = (change: (m: Loose) => void) => copied("metals", "copper", "own-copper", change);
    expect(
      await line(
        "own-copper",
        0,
        metal((m) => Object.assign(m.density as Loose, { low: 9999 })),
      ),
    ).toEqual([400, expect.stringMatching(/^invalid metals\[0\]\.density\.value: \S+ \(must lie from low to high\)$/)]);
    expect(await line("own-copper", 0, { ...metal(() => {}), citation: undefined })).toEqual([
      400,
      "invalid source: own-own-copper (unknown source: add its citation)",
    ]);
    expect(await line("own-copper", 0, copied("metals", "copper", "copper"))).toEqual([
      400,
      'invalid metals[0].id: copper (already in the library: choose another id or say "replaces": true)',
    ]);
    expect(await line("second", 0, copied("metals", "copper", "works-steel"))).toEqual([
      400,
      "invalid metals[0].id: works-steel (is in own file works-steel already: change it there)",
    ]);
    expect(
      await line(
        "lacquer",
        0,
        copied("layers", "alkyd", "lacquer", (l) => (l.fume = ["none-such"])),
      ),
    ).toEqual([400, "invalid layers[0].fume: none-such (unknown fume entry)"]);
    expect(
      (
        await line(
          "own copper",
          0,
          metal(() => {}),
        )
      )[0],
    ).toBe(400);
    expect((await line("own-copper", 0, "copper"))[0]).toBe(400);
    expect(
      (
        await line(
          "own-copper",
          -1,
          metal(() => {}),
        )
      )[0],
    ).toBe(400);
    expect(await line("works-steel", 1, copied("metals", "copper", "works-steel"))).toEqual([
      409,
      expect.stringMatching(/works-steel has moved on: version 3/),
    ]);
  });

  it("is refused where another own file leans on it", async () => {
    const fume = {
      source: "own-fume",
      citation: "Measured in our shop, 2026",
      fromMemory: false,
      note: "n",
      fume: [{ id: "wax", name: "Wax", substances: ["wax fume"], limits: [], stop: false, note: "n" }],
    };
    expect((await save("z-fume", 0, fume)).status).toBe(200);
    const wax = copied("layers", "oil-film", "wax-coat", (l) => (l.fume = ["wax"]));
    expect((await save("a-wax-coat", 0, wax)).status).toBe(200);
    const { files } = (await call("GET", "/library/files")).json();
    const ids = files.map((f: { id: string }) => f.id);
    expect(ids.indexOf("a-wax-coat")).toBeGreaterThan(ids.indexOf("z-fume"));
    expect(await line("z-fume", 1, { ...fume, fume: [] })).toEqual([
      409,
      "own library file a-wax-coat leans on what this change takes away: invalid layers[0].fume: wax (unknown fume entry)",
    ]);
    expect((await dependants("fume", "wax")).layers).toEqual(["wax-coat"]);
  });
});

describe("an answer", () => {
  it("keeps the library files that it was worked out with, whatever became of them since", async () => {
    const kept = (version: number) => ({ inputs: { library: [{ id: "works-steel", version }] } }) as never;
    const of = (version: number) => store.read((r) => libraryOf(r, kept(version)));
    expect((await of(1)).map((f) => f.metals?.[0]?.density.low)).toEqual([7830]);
    expect((await of(2)).map((f) => f.metals?.[0]?.density.low)).toEqual([7840]);
    expect(await store.read((r) => libraryOf(r, { inputs: {} } as never))).toEqual([]);
    await expect(of(99)).rejects.toThrow("own library file works-steel, version 99");
  });
});

describe("what depends on an entry", () => {
  beforeAll(async () => {
    const laser = copied("setups", plannedTrial.laser, "hall-laser");
    expect((await save("hall-laser", 0, laser)).status).toBe(200);
    expect((await keep("on-own", "works-steel", "alkyd")).status).toBe(200);
    expect((await keep("on-unknown", "unknown", "epoxy-primer")).status).toBe(200);
    const trial = { ...plannedTrial, id: "own-trial", enquiry: "on-own", part: "brackets", laser: "hall-laser" };
    expect((await call("PUT", "/trials/own-trial", { trial })).status).toBe(200);
  });

  it("is named: enquiries by name or as what an unknown may be, and their trials", async () => {
    const steel = await dependants("metals", "works-steel");
    expect(steel.enquiries).toEqual(
      expect.arrayContaining([
        { id: "on-own", title: "Title on-own", named: true, parts: ["brackets"] },
        { id: "on-unknown", title: "Title on-unknown", named: false, parts: ["brackets"] },
      ]),
    );
    expect(steel.trials).toEqual([{ id: "own-trial", enquiry: "on-own", part: "brackets" }]);
    expect((await dependants("metals", "zinc")).enquiries).toEqual([]);
    expect((await dependants("layers", "alkyd")).enquiries.map((e: Loose) => e.id)).toEqual(["on-own"]);
    expect((await dependants("setups", "hall-laser")).trials).toHaveLength(1);
    expect((await dependants("fume", "alkyd")).enquiries.map((e: Loose) => e.id)).toEqual(["on-own"]);
    expect((await call("GET", "/library/dependants/metals/none")).status).toBe(404);
    expect((await call("GET", "/library/dependants/tools/none")).status).toBe(400);
  });

  it("keeps an entry from being taken away, and a set-up from losing what a trial runs at", async () => {
    const empty = (id: string) => ({ source: `own-${id}`, citation: "c", fromMemory: false, note: "n" });
    const steel = await save("works-steel", 3, empty("works-steel"));
    expect(steel.status).toBe(409);
    expect(steel.json().error).toBe(
      "nothing was saved, for this could not be read any more: enquiry on-own (parts[0].material works-steel: unknown material)",
    );
    const laser = await save("hall-laser", 1, empty("hall-laser"));
    expect(laser.status).toBe(409);
    expect(laser.json().error).toMatch(/trial own-trial of enquiry on-own \(laser set-up hall-laser would be gone\)$/);
    const weak = copied("setups", plannedTrial.laser, "hall-laser", (s) => (s.ratedPower = 1));
    const weaker = await save("hall-laser", 1, weak);
    expect(weaker.status).toBe(409);
    expect(weaker.json().error).toMatch(/trial own-trial of enquiry on-own \(invalid power: /);
    expect((await call("GET", "/library/files/hall-laser")).json().version).toBe(1);
    // What nothing stands on may go, and comes back by its version.
    expect((await save("a-wax-coat", 1, empty("a-wax-coat"))).status).toBe(200);
  });

  it("is read with the own entries from end to end: run sheets of an own laser on an own metal", async () => {
    const page = await call("GET", "/trials/own-trial/run-sheet.html");
    expect(page.status, page.text).toBe(200);
    expect(page.text).toContain("Own hall-laser");
    expect((await call("GET", "/trials/own-trial/run-sheet.csv")).status).toBe(200);
    expect((await call("POST", "/trials/own-trial/grade", { photos: [] })).status).toBe(400);
  });

  it("counts as changed for the answers of those enquiries alone that it concerns", async () => {
    const changedAt = async (id: string) => (await call("GET", `/enquiries/${id}/answers`)).json().changedAt;
    const [own, other] = [await changedAt("on-own"), await changedAt("on-unknown")];
    const file = copied("layers", "alkyd", "own-alkyd");
    expect((await save("own-alkyd", 0, file)).status).toBe(200);
    expect([await changedAt("on-own"), await changedAt("on-unknown")]).toEqual([own, other]);
    const another = (await save("another", 0, copied("metals", "stainless-304", "another"))).json();
    expect([await changedAt("on-own"), await changedAt("on-unknown")]).toEqual([own, another.savedAt]);
    const denser = copied("metals", "steel-low-carbon", "works-steel", (m) => {
      (m.density as Loose).high = 7880;
    });
    const { savedAt } = (await save("works-steel", 3, denser)).json();
    expect([await changedAt("on-own"), await changedAt("on-unknown")]).toEqual([savedAt, savedAt]);
    expect(savedAt > own).toBe(true);
  });
});
