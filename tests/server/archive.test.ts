import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { FastifyInstance } from "fastify";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import {
  type ArchiveWire,
  archiveSchema,
  beliefToWire,
  outcomeFromWire,
  resolveEnquiry,
  trialFromWire,
} from "#contract";
import { createLibrary } from "#library";
import { buildServer, loadExample } from "#server";
import { openStore, type Store } from "#store";
import type { Belief } from "#terms";

const examples = new URL("../../examples", import.meta.url).pathname;
let folder = "";
let store: Store;
let app: FastifyInstance;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "archive-"));
  store = openStore(join(folder, "test.db"));
  await loadExample(store, examples);
  app = await buildServer({ store, webRoot: null, examples, now: () => "2026-11-25T10:00:00.000Z", draws: 8 });
});
afterAll(async () => {
  await app.close();
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

async function get(url: string) {
  const answer = await app.inject({ method: "GET", url: `/api${url}`, headers: { host: "127.0.0.1:4173" } });
  return { status: answer.statusCode, body: answer.json() };
}

async function ask(query: Record<string, string>): Promise<ArchiveWire> {
  const { status, body } = await get(`/archive?${new URLSearchParams(query)}`);
  expect(status, JSON.stringify(body)).toBe(200);
  return archiveSchema.parse(body);
}

const text = "grey polyurethane over epoxy primer on 5083";

describe("the archive", () => {
  it("answers words with the likest first, what each found, and cautions", async () => {
    const page = await ask({ text: `shiny ${text}` });
    expect(page.ignored).toEqual(["shiny"]);
    expect(page.question).toBe("mid polyurethane top coat over epoxy primer on Aluminium 5083");
    expect([page.compared, page.near, page.notCompared]).toEqual([4, 4, 0]);
    expect(page.trials.map((t) => t.part)).toEqual(["hatch-covers", "hatch-covers", "brackets", "brackets"]);
    const hit = page.trials.find((t) => t.trial === "hatch-covers-pulsed")!;
    expect(hit.likeness).toBeGreaterThan(0.99);
    expect(hit.words).toEqual(["same coat", "same metal"]);
    expect(hit.layers.map((l) => [l.kind, l.colour, l.thickness_um])).toEqual([
      ["polyurethane-topcoat", "mid", 45],
      ["epoxy-primer", "mid", 30],
    ]);
    expect(hit.title).not.toBe("");
    expect(hit.savedAt).toMatch(/^\d{4}-/);
    expect(page.trials[2]!.likeness).toBeLessThan(0.9);
    expect(page.cautions.join(" ")).toContain("Class 4");
    expect(hit.cautions.join(" ")).toContain("Class 4");
    expect(page.cautions.join(" ").toLowerCase()).not.toContain("safe ");
  });

  it("counts patches as reading every outcome does", async () => {
    const library = createLibrary([]);
    const page = await ask({ text });
    for (const hit of page.trials) {
      const { outcomes, part } = await store.read(async (r) => ({
        outcomes: (await r.outcomes(hit.trial)).map(outcomeFromWire),
        part: resolveEnquiry((await r.latest("enquiry", hit.enquiry))!.record, library).parts.find(
          (p) => p.id === hit.part,
        )!,
      }));
      const { residueMax, metalConditionMax } = part.acceptance;
      // one grader graded the example, so that a row is a patch
      expect(hit.clean).toBe(
        outcomes.filter((o) => o.residueFraction !== null && o.residueFraction <= residueMax).length,
      );
      expect(hit.damaged).toBe(outcomes.filter((o) => (o.metalCondition ?? 0) > metalConditionMax).length);
      expect(hit.graded).toBe(outcomes.length);
    }
  });

  it("answers for a part, with or without a set-up", async () => {
    const plain = await ask({ enquiry: "island-ferry-yard", part: "brackets" });
    expect(plain.trials.slice(0, 2).map((t) => [t.part, t.likeness])).toEqual([
      ["brackets", 1],
      ["brackets", 1],
    ]);
    expect(plain.question).toMatch(/ of Hatch covers and brackets of an island ferry$/);
    const pulsed = await ask({ enquiry: "island-ferry-yard", part: "brackets", laser: "pulsed-500" });
    expect(pulsed.trials[0]!.trial).toBe("brackets-pulsed");
    expect(pulsed.trials[0]!.words).toContain("same set-up");
    expect(pulsed.trials.find((t) => t.trial === "brackets-continuous")!.likeness).toBeLessThan(0.95);
    const first = await ask({ enquiry: "island-ferry-yard" });
    expect(first.trials[0]!.part).toBe("hatch-covers");
    const laser = await ask({ laser: "pulsed-500" });
    expect(laser.trials.slice(0, 2).every((t) => t.laser === "pulsed-500" && t.likeness === 1)).toBe(true);
  });

  it("comes newest first without a question, page by page", async () => {
    const all = await ask({});
    expect(all.question).toBeNull();
    expect(all.trials.every((t) => t.likeness === null && t.words.length === 0)).toBe(true);
    expect(all.trials.map((t) => t.trial)).toEqual((await store.read((r) => r.trialLines())).map((t) => t.id));
    const second = await ask({ offset: "1", most: "2" });
    expect(second.trials.map((t) => t.trial)).toEqual(all.trials.slice(1, 3).map((t) => t.trial));
    expect([second.offset, second.near]).toEqual([1, 4]);
  });

  it("sees what was kept since it last looked", async () => {
    const before = (await ask({ text })).trials.find((t) => t.trial === "hatch-covers-pulsed")!;
    expect(before.recommended).toBeNull();
    const wire = (await store.read((r) => r.latest("trial", "hatch-covers-pulsed")))!.record;
    const { setting } = trialFromWire(wire).patches.find((p) => p.setting !== null)!;
    const belief: Belief = {
      id: "hatch-covers-pulsed",
      trialId: "hatch-covers-pulsed",
      enquiryId: "island-ferry-yard",
      partId: "hatch-covers",
      setupId: "pulsed-500",
      metalId: "aluminium-5083",
      layers: [],
      lessons: [],
      shifts: [],
      recommended: { setting: setting!, proven: true },
      patches: 32,
      modelVersion: "m",
    };
    await store.write((t) => t.put("belief", beliefToWire(belief)));
    const after = (await ask({ text })).trials.find((t) => t.trial === "hatch-covers-pulsed")!;
    expect([after.recommended?.proven, after.recommended?.from]).toEqual([true, "belief"]);
    const graded = after.graded!;
    const [first] = await store.read((r) => r.outcomes("hatch-covers-pulsed"));
    await store.write((t) =>
      t.addOutcomes("hatch-covers-pulsed", [{ ...first!, metalCondition: 4, grader: "second" }]),
    );
    const last = (await ask({ text })).trials.find((t) => t.trial === "hatch-covers-pulsed")!;
    expect([last.graded, last.damaged! - after.damaged!]).toEqual([graded, (first!.metalCondition ?? 0) > 2 ? 0 : 1]);
    const { record } = (await store.read((r) => r.latest("enquiry", "island-ferry-yard")))!;
    await store.write((t) => t.put("enquiry", { ...record, title: "Renamed" }));
    expect((await ask({ text })).trials[0]!.title).toBe("Renamed");
  });

  it("takes half a word for no mistake: nothing is understood, nothing is shown", async () => {
    const page = await ask({ text: " quu " });
    expect([page.question, page.ignored, page.near, page.compared]).toEqual([null, ["quu"], 0, 4]);
    expect(page.trials).toEqual([]);
    expect(page.cautions.join(" ")).toContain("laser safety officer");
  });

  it("refuses in one line", async () => {
    const line = async (query: Record<string, string>) => {
      const { status, body } = await get(`/archive?${new URLSearchParams(query)}`);
      return [status, body.error];
    };
    expect(await line({ text: "rust", enquiry: "island-ferry-yard" })).toEqual([
      400,
      expect.stringContaining("not both"),
    ]);
    expect(await line({ enquiry: "nowhere" })).toEqual([404, "there is no enquiry nowhere"]);
    expect(await line({ enquiry: "island-ferry-yard", part: "x" })).toEqual([
      400,
      "invalid part: x (one of: hatch-covers, brackets)",
    ]);
    expect((await line({ laser: "quux" }))[0]).toBe(400);
    const bads: Record<string, string>[] = [
      { most: "0" },
      { most: "101" },
      { offset: "-1" },
      { most: "x" },
      { text: "x".repeat(401) },
    ];
    for (const bad of bads) expect((await line(bad))[0], JSON.stringify(bad)).toBe(400);
  });
});

describe("the list of enquiries", () => {
  it("counts anew when something was kept", async () => {
    const list = async () => (await get("/enquiries")).body.enquiries;
    const [before] = await list();
    expect([...before.lasers].sort()).toEqual(["continuous-1500", "pulsed-500"]);
    expect([before.trials, before.answers]).toEqual([4, 0]);
    for (const name of ["Aluminium 5083", "Polyurethane top coat", "Nanosecond pulsed 500 W"])
      expect(before.names).toContain(name);
    const [first] = await store.read((r) => r.outcomes("brackets-pulsed"));
    await store.write((t) => t.addOutcomes("brackets-pulsed", [{ ...first!, grader: "third" }]));
    expect((await list())[0].outcomes).toBe(before.outcomes + 1);
    const kept = await store.read((r) => r.latest("trial", "brackets-pulsed"));
    await store.write((t) => t.put("trial", { ...kept!.record, id: "one-more", laser: "pulsed-100" }));
    expect((await list())[0].lasers).toContain("pulsed-100");
  });
});
