import { createHash } from "node:crypto";
import { existsSync, readdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { strFromU8, unzipSync } from "fflate";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { parseOutcomesCsv, trialFromWire } from "#contract";
import { collectTrial, importTrial, libraryOf, lastCaution, packTrial, unpackTrial } from "#exchange";
import { createLibrary, metal } from "#library";
import type { RecordKind, Store } from "#store";
import { enquiry, fill, photoA, photoB, photoC, scratch, ticking, trialRecord } from "./filled-store.ts";

const id = trialRecord.id;
const sum = (bytes: Uint8Array) => createHash("sha256").update(bytes).digest("hex");

let folders: string[];
let from: Store;
let to: Store;
beforeEach(async () => {
  folders = [scratch(), scratch()];
  from = ticking(folders[0]!);
  to = ticking(folders[1]!, Date.UTC(2030, 0, 1));
  await fill(from);
});
afterEach(async () => {
  await from.close();
  await to.close();
  for (const folder of folders) rmSync(folder, { recursive: true });
});

async function pack(store: Store): Promise<Uint8Array> {
  const { bundle } = await collectTrial(store, id);
  return packTrial(bundle, libraryOf(bundle));
}

/** All rows that a store holds, versions and times included. */
const held = (store: Store) =>
  store.read(async (r) => {
    const records: unknown[] = [];
    for (const kind of ["library", "enquiry", "trial", "sample", "belief", "grading", "shop-record"] as RecordKind[])
      for (const { id: name } of await r.list(kind))
        for (const { version } of await r.history(kind, name))
          records.push([kind, await r.version(kind, name, version)]);
    const answers = await Promise.all((await r.answers(enquiry.id)).map((a) => r.answer(a.id)));
    return { records, outcomes: await r.outcomeHistory(id), answers, photos: await r.photos() };
  });

describe("an archive", () => {
  it("takes what belongs to the trial and nothing else", async () => {
    const { bundle, photosMissing } = await collectTrial(from, id);
    expect(bundle.records.map((r) => [r.kind, r.id, r.versions.length])).toEqual([
      ["belief", "b1", 2],
      ["enquiry", enquiry.id, 2],
      ["grading", `${id}.coupon-1`, 1],
      ["library", "own", 1],
      ["sample", "s1", 1],
      ["shop-record", enquiry.id, 2],
      ["trial", id, 1],
    ]);
    expect(bundle.outcomes).toHaveLength(9);
    expect(bundle.answers.map((a) => a.inputs.seed)).toEqual([1, 2, 2]);
    expect(bundle.photos.map((p) => [p.sha256, p.mediaType])).toEqual(
      [
        [sum(photoA), "image/jpeg"],
        [sum(photoB), "image/png"],
        [sum(photoC), "image/jpeg"],
      ].sort(),
    );
    expect(photosMissing).toEqual([]);
    await expect(collectTrial(from, "nowhere")).rejects.toThrow("invalid trial: nowhere (is not in the data folder)");
  });

  it("names photos that records speak of and the folder has not", async () => {
    const lost = "ab".repeat(32);
    const note = `see ${lost}`;
    await from.write(async (t) => t.addOutcomes(id, [{ ...(await t.outcomes(id))[1]!, note }]));
    const { bundle, photosMissing } = await collectTrial(from, id);
    expect(photosMissing).toEqual([lost]);
    expect(bundle.photos).toHaveLength(3);
  });

  it("follows RO-Crate 1.2: descriptor, root with what it must have, every file with size, type and sha256", async () => {
    const files = unzipSync(await pack(from));
    expect(Object.keys(files)[0]).toBe("ro-crate-metadata.json");
    const crate = JSON.parse(strFromU8(files["ro-crate-metadata.json"]!));
    // Properties that the Metadata Descriptor and the Root Data Entity MUST have: RO-Crate 1.2, "Root Data Entity".
    expect(crate["@context"]).toBe("https://w3id.org/ro/crate/1.2/context");
    const graph = crate["@graph"] as Record<string, unknown>[];
    const entity = (name: string) => graph.find((e) => e["@id"] === name)!;
    expect(entity("ro-crate-metadata.json")).toEqual({
      "@id": "ro-crate-metadata.json",
      "@type": "CreativeWork",
      about: { "@id": "./" },
      conformsTo: { "@id": "https://w3id.org/ro/crate/1.2" },
    });
    const root = entity("./");
    for (const property of ["name", "description", "datePublished", "license"])
      expect(root[property], property).toMatch(/\S/);
    expect(root["@type"]).toBe("Dataset");
    // The last row that `fill` makes is a grading of this trial.
    expect(root.datePublished).toBe((await from.read((r) => r.outcomeHistory(id))).at(-1)!.savedAt);
    expect(root.description).toContain("Invented for demonstration");
    const parts = (root.hasPart as { "@id": string }[]).map((p) => p["@id"]);
    expect(parts.toSorted()).toEqual(
      Object.keys(files)
        .filter((path) => path !== "ro-crate-metadata.json")
        .toSorted(),
    );
    for (const path of parts) {
      expect(entity(path)).toMatchObject({
        "@type": "File",
        contentSize: String(files[path]!.length),
        sha256: sum(files[path]!),
        encodingFormat: expect.stringMatching(/^(application\/json|text\/(csv|plain)|image\/(jpeg|png))$/),
      });
    }
    // Flattened: an object inside an entity is nothing but a reference.
    for (const value of graph.flatMap((e) => Object.values(e).flat()))
      if (typeof value === "object") expect(Object.keys(value as object)).toEqual(["@id"]);
  });

  it("can be read without this program: run sheet, outcomes, cautions", async () => {
    const files = unzipSync(await pack(from));
    const csv = strFromU8(files["outcomes.csv"]!);
    const trial = trialFromWire(trialRecord);
    const latest = await from.read((r) => r.outcomes(id));
    expect(parseOutcomesCsv(csv, trial).accepted).toHaveLength(latest.length);
    expect(strFromU8(files["run-sheet.csv"]!).split("\r\n")[1]).toContain(",own-laser,");
    const entries = JSON.parse(strFromU8(files["library-entries.json"]!));
    expect(entries.setups.map((e: { id: string }) => e.id)).toEqual(["own-laser"]);
    expect(entries.metals.map((e: { id: string }) => e.id)).toEqual(["steel-low-carbon"]);
    expect(entries.metals[0].density).toEqual(metal("steel-low-carbon").density);
    expect(entries.layers.map((e: { id: string }) => e.id).toSorted()).toEqual(
      enquiry.parts
        .find((p) => p.id === trialRecord.part)!
        .layers.map((l) => l.kind)
        .toSorted(),
    );
    const cautions = strFromU8(files["cautions.txt"]!).trim().split("\n");
    expect(cautions).toEqual([...trialRecord.cautions, lastCaution]);
    expect(files[`photos/${sum(photoA)}.jpg`]).toEqual(photoA);
  });

  it("is the same, byte for byte, whenever it is written", async () => {
    vi.useFakeTimers({ toFake: ["Date"], now: new Date(2026, 0, 1) });
    const first = await pack(from);
    vi.setSystemTime(new Date(2027, 5, 6, 7, 8, 9));
    const second = await pack(from);
    vi.useRealTimers();
    expect(Buffer.compare(first, second)).toBe(0);
  });
});

describe("the library of an archive", () => {
  it("takes files that lean on one another in any order, and leaves one out that does not fit", async () => {
    const { bundle } = await collectTrial(from, id);
    const about = { source: "user", fromMemory: true, note: "invented" };
    const layer = createLibrary([]).layerKinds.find((l) => l.fume.length > 0)!;
    const entry = createLibrary([]).fumeEntries[0]!;
    const versions = (name: string, file: object) => [
      { version: 1, savedAt: "2026-01-01T00:00:00.000Z", record: { id: name, file: { ...about, ...file } as never } },
    ];
    const own = [
      {
        kind: "library" as const,
        id: "a",
        versions: versions("a", { layers: [{ ...layer, id: "mine", fume: ["my-fume"] }] }),
      },
      { kind: "library" as const, id: "b", versions: versions("b", { fume: [{ ...entry, id: "my-fume" }] }) },
      { kind: "library" as const, id: "c", versions: versions("c", { metals: [{ ...metal("steel-low-carbon") }] }) },
    ];
    const library = libraryOf({ ...bundle, records: [...bundle.records, ...own] });
    expect(library.layerKind("mine").fume).toEqual(["my-fume"]);
    expect(library.setup("own-laser").name).toBe("Own laser");
    expect(library.metals).toEqual(createLibrary([]).metals);
    expect(() => libraryOf(bundle, [{ nonsense: 1 }])).toThrow(/^invalid /);
    // Nobody knows the set-up: no run sheet, the rest as ever.
    const without = unzipSync(packTrial(bundle, createLibrary([])));
    expect(without["run-sheet.csv"]).toBeUndefined();
    expect(without["outcomes.csv"]).toBeDefined();
  });
});

describe("limits", () => {
  it("makes nothing that is too large to be read again", async () => {
    const { bundle } = await collectTrial(from, id);
    const library = libraryOf(bundle);
    const files = Object.keys(unzipSync(packTrial(bundle, library))).length;
    const limits = { files, bytes: 1e6 };
    expect(unpackTrial(packTrial(bundle, library, limits), limits)).toEqual(bundle);
    expect(() => packTrial(bundle, library, { ...limits, files: files - 1 })).toThrow(
      `invalid archive: ${files} files (at most ${files - 1} can be read again)`,
    );
    expect(() => packTrial(bundle, library, { ...limits, bytes: 1000 })).toThrow(
      /^invalid archive: [\d.]+ MB \(at most 0.001 MB can be read again\)$/,
    );
  });
});

describe("import", () => {
  it("brings the same records again: versions, gradings, answers, photos, and their times", async () => {
    const bytes = await pack(from);
    let times: string[] = [];
    const folder = scratch();
    folders.push(folder);
    const { openStore } = await import("#store");
    const other = openStore(join(folder, "scourlight.db"), { now: () => times.shift() ?? "2040-01-01T00:00:00Z" });
    const counts = await importTrial(other, unpackTrial(bytes), (savedAt) => {
      times = [...savedAt];
    });
    expect(counts).toEqual({ versions: 10, outcomes: 9, answers: 3, photos: 3 });
    expect(times).toEqual([]);
    const { bundle } = await collectTrial(from, id);
    expect((await collectTrial(other, id)).bundle).toEqual(bundle);
    // The other store gives the very archive that it was filled from.
    expect(Buffer.compare(await pack(other), bytes)).toBe(0);
    expect(new Uint8Array((await other.photo(sum(photoB)))!)).toEqual(photoB);
    expect((await other.read((r) => r.outcomes(id))).length).toBe((await from.read((r) => r.outcomes(id))).length);
    await other.close();
  });

  it("keeps the times of its own clock where nobody takes the old ones", async () => {
    await importTrial(to, unpackTrial(await pack(from)));
    const { bundle } = await collectTrial(to, id);
    expect(bundle.outcomes[0]!.savedAt).toMatch(/^2030-/);
    const without = (b: typeof bundle) => JSON.parse(JSON.stringify(b, (k, v) => (k === "savedAt" ? undefined : v)));
    expect(without(bundle)).toEqual(without((await collectTrial(from, id)).bundle));
  });

  it("adds nothing when done twice, and only what is new when the trial has gone on", async () => {
    const bytes = await pack(from);
    await importTrial(to, unpackTrial(bytes));
    const before = await held(to);
    expect(await importTrial(to, unpackTrial(bytes))).toEqual({ versions: 0, outcomes: 0, answers: 0, photos: 0 });
    expect(await held(to)).toEqual(before);

    const regraded = { ...(await from.read((r) => r.outcomes(id)))[2]!, residue_percent: 12 };
    await from.write(async (t) => {
      await t.addOutcomes(id, [regraded]);
      await t.put("enquiry", { ...enquiry, title: "Third title" });
    });
    expect(await importTrial(to, unpackTrial(await pack(from)))).toEqual({
      versions: 1,
      outcomes: 1,
      answers: 0,
      photos: 0,
    });
    expect((await to.read((r) => r.latest("enquiry", enquiry.id)))?.record.title).toBe("Third title");
    // The older archive has nothing that this folder lacks.
    expect(await importTrial(to, unpackTrial(bytes))).toEqual({ versions: 0, outcomes: 0, answers: 0, photos: 0 });
  });

  it("leaves no old time behind for the next row when the writing fails", async () => {
    const archive = unpackTrial(await pack(from));
    const full: Store = { ...to, write: () => Promise.reject(new Error("the disk is full")) };
    let times: readonly string[] = ["none yet"];
    await expect(importTrial({ ...full, savePhoto: async () => "" }, archive, (t) => (times = t))).rejects.toThrow(
      "full",
    );
    expect(times).toEqual([]);
  });

  it("takes fields in another order for the same answer", async () => {
    const archive = unpackTrial(await pack(from));
    await importTrial(to, archive);
    const turned = archive.answers.map((a) => ({
      ...a,
      inputs: Object.fromEntries(Object.entries(a.inputs).reverse()),
    }));
    expect(JSON.stringify(turned)).not.toBe(JSON.stringify(archive.answers));
    expect((await importTrial(to, { ...archive, answers: turned })).answers).toBe(0);
    const other = archive.answers.map((a) => ({ ...a, inputs: { ...a.inputs, seed: 99 } }));
    expect((await importTrial(to, { ...archive, answers: other })).answers).toBe(3);
  });

  it("refuses a contradiction in one line and leaves the folder as it was", async () => {
    const archive = unpackTrial(await pack(from));
    const cases: [(store: Store) => Promise<unknown>, string][] = [
      [
        (s) => s.write((t) => t.put("enquiry", { ...enquiry, title: "Quite another" })),
        `invalid enquiry: ${enquiry.id} (another one is kept under this name in the data folder; nothing was imported)`,
      ],
      [
        (s) => s.write((t) => t.put("trial", { ...trialRecord, seed: 5 })),
        `invalid trial: ${id} (another one is kept under this name in the data folder; nothing was imported)`,
      ],
      [
        (s) =>
          s.write(async (t) => {
            await t.put("trial", trialRecord);
            await t.addOutcomes(id, [{ ...archive.outcomes[0]!.outcome, residue_percent: 55 }]);
          }),
        `invalid outcomes: ${id} (others are kept of this trial in the data folder; nothing was imported)`,
      ],
    ];
    for (const [prepare, line] of cases) {
      const folder = scratch();
      folders.push(folder);
      const store = ticking(folder);
      await prepare(store);
      const before = await held(store);
      await expect(importTrial(store, archive)).rejects.toThrow(line);
      expect(await held(store)).toEqual(before);
      expect(existsSync(join(folder, "scourlight.db-photos"))).toBe(false);
      await store.close();
    }
  });

  it("refuses what the store would refuse before it is touched", async () => {
    const archive = unpackTrial(await pack(from));
    const odd = { ...archive, photos: archive.photos.map((p, i) => (i === 1 ? { ...p, mediaType: "text/html" } : p)) };
    await expect(importTrial(to, odd)).rejects.toThrow(/^invalid photo type: text\/html/);
    const strange = { ...archive.outcomes[0]!, outcome: { ...archive.outcomes[0]!.outcome, patch: 999 } };
    await expect(importTrial(to, { ...archive, outcomes: [...archive.outcomes, strange] })).rejects.toThrow(
      `invalid outcome.patch: 999 (is not in trial ${id})`,
    );
    expect(await held(to)).toEqual({ records: [], outcomes: [], answers: [], photos: [] });
    expect(readdirSync(folders[1]!).filter((name) => name.includes("photos"))).toEqual([]);
  });

  it("brings outcomes of a patch that a later plan of the trial has no longer", async () => {
    const gone = (await from.read((r) => r.outcomes(id)))[0]!.patch;
    const patches = trialRecord.patches.filter((p) => p.patch !== gone).map((p) => ({ ...p, replicateOf: null }));
    const later = ticking(folders[0]!, Date.UTC(2027, 0, 1));
    await later.write((t) => t.put("trial", { ...trialRecord, patches }));
    await later.close();
    const archive = unpackTrial(await pack(from));
    expect((await importTrial(to, archive)).outcomes).toBe(9);
    expect((await to.read((r) => r.outcomeHistory(id, gone))).length).toBeGreaterThan(0);
  });

  it("keeps the order of a history even where a clock was put back", async () => {
    const back = ticking(folders[0]!, Date.UTC(2020, 0, 1));
    await back.write((t) => t.put("enquiry", { ...enquiry, title: "Saved by a slow clock" }));
    await back.close();
    await importTrial(to, unpackTrial(await pack(from)));
    const saved = await to.read((r) => r.latest("enquiry", enquiry.id));
    expect([saved?.version, saved?.record.title]).toEqual([3, "Saved by a slow clock"]);
  });
});
