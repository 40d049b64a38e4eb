import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { openStore, type Store, type StoreReader, VersionConflict } from "#store";
import { beliefFromWire, beliefToWire } from "#contract";
import { belief, enquiry, graded, trialRecord } from "./records.ts";

let folder: string;
let store: Store;
let tick = 0;
const now = () => `2026-01-01T00:00:${String(tick++).padStart(2, "0")}Z`;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "scourlight-store-"));
  tick = 0;
  store = openStore(join(folder, "work.db"), { now });
});
afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

describe("records in versions", () => {
  it("adds a version per save and keeps every earlier one", async () => {
    await store.write((t) => t.put("enquiry", enquiry("first")));
    await store.write((t) => t.put("enquiry", enquiry("second")));
    await store.read(async (r) => {
      expect((await r.latest("enquiry", "enquiry"))?.record.title).toBe("second");
      expect((await r.version("enquiry", "enquiry", 1))?.record.title).toBe("first");
      expect(await r.history("enquiry", "enquiry")).toEqual([
        { version: 2, savedAt: "2026-01-01T00:00:01Z" },
        { version: 1, savedAt: "2026-01-01T00:00:00Z" },
      ]);
      expect((await r.list("enquiry")).map((s) => s.record.title)).toEqual(["second"]);
    });
  });

  it("undoes by putting an earlier version again", async () => {
    await store.write((t) => t.put("enquiry", enquiry("first")));
    await store.write((t) => t.put("enquiry", enquiry("second")));
    const undone = await store.write(async (t) => t.put("enquiry", (await t.version("enquiry", "enquiry", 1))!.record));
    expect(undone.version).toBe(3);
    expect((await store.read((r) => r.latest("enquiry", "enquiry")))?.record).toEqual(enquiry("first"));
    expect(await store.read((r) => r.history("enquiry", "enquiry"))).toHaveLength(3);
  });

  it("refuses a change made from an older version", async () => {
    await store.write((t) => t.put("enquiry", enquiry("first"), 0));
    await store.write((t) => t.put("enquiry", enquiry("second"), 1));
    const late = store.write((t) => t.put("enquiry", enquiry("third"), 1));
    await expect(late).rejects.toThrow(VersionConflict);
    await expect(late).rejects.toThrow("enquiry enquiry has moved on: version 2 is stored");
  });

  it("keeps samples, library files and trials, and narrows them to an enquiry", async () => {
    const sample = {
      id: "s1",
      enquiry: "enquiry",
      part: "part-1",
      label: "S-001",
      received: "2026-03-31",
      returned: null,
      conditionPhoto: null,
      thicknessMap: [{ x_mm: 1, y_mm: 2, thickness_um: 80 }],
      untouchedWitnessKept: true,
      note: "",
    };
    await store.write(async (t) => {
      await t.put("sample", sample);
      await t.put("sample", { ...sample, id: "s2", enquiry: "other" });
      await t.put("trial", trialRecord);
      await t.put("library", { id: "own", file: { source: "user", fromMemory: true, note: "own values" } });
    });
    await store.read(async (r) => {
      expect((await r.list("sample", "enquiry")).map((s) => s.record)).toEqual([sample]);
      expect(await r.list("sample")).toHaveLength(2);
      expect((await r.latest("trial", "trial-1"))?.record).toEqual(trialRecord);
      expect((await r.list("library"))[0]?.record.file.note).toBe("own values");
      expect(await r.latest("trial", "nowhere")).toBeNull();
    });
  });

  it("lists trials in short, latest versions only, last saved first", async () => {
    await store.write((t) => t.put("trial", trialRecord));
    await store.write((t) =>
      t.put("trial", { ...trialRecord, id: "trial-2", patches: trialRecord.patches.slice(0, 1) }),
    );
    await store.write((t) => t.put("trial", { ...trialRecord, laser: "pulsed-50" }));
    const { enquiry: of, part, laser, patches } = trialRecord;
    expect(await store.read((r) => r.trialLines())).toEqual([
      {
        id: "trial-1",
        enquiry: of,
        part,
        laser: "pulsed-50",
        patches: patches.length,
        savedAt: "2026-01-01T00:00:02Z",
      },
      { id: "trial-2", enquiry: of, part, laser, patches: 1, savedAt: "2026-01-01T00:00:01Z" },
    ]);
  });

  it("keeps what a trial taught, in versions, and finds it by its enquiry", async () => {
    const first = beliefToWire(belief);
    await store.write((t) => t.put("belief", first));
    await store.write((t) => t.put("belief", { ...first, patches: 40 }));
    await store.write((t) => t.put("belief", { ...first, id: "other", enquiry: "elsewhere" }));
    await store.read(async (r) => {
      expect((await r.list("belief", "enquiry")).map((s) => [s.id, s.version, s.record.patches])).toEqual([
        ["b1", 2, 40],
      ]);
      expect(await r.list("belief")).toHaveLength(2);
      expect(beliefFromWire((await r.version("belief", "b1", 1))!.record)).toEqual(belief);
    });
    const bad = (spread: number) => ({ ...first, lessons: [{ coordinate: "plume", mean: 0, spread }] });
    await expect(store.write((t) => t.put("belief", bad(0)))).rejects.toThrow(
      "invalid lessons[0].spread: 0 (must be greater than 0)",
    );
    await expect(store.write((t) => t.put("belief", bad(Number.NaN)))).rejects.toThrow(/^invalid lessons\[0\].spread/);
    const { recommended: _, ...silent } = belief;
    for (const b of [silent, { ...belief, recommended: null }]) expect(beliefFromWire(beliefToWire(b))).toEqual(b);
  });

  it("lets nothing in that has not its shape", async () => {
    const bad = { ...enquiry("x"), parts: [] };
    await expect(store.write((t) => t.put("enquiry", bad))).rejects.toThrow(/^invalid parts: a list of 0 \(/);
    const badFile = { id: "own", file: { nonsense: 1 } as never };
    await expect(store.write((t) => t.put("library", badFile))).rejects.toThrow(/^invalid /);
    expect(await store.read((r) => r.list("enquiry"))).toEqual([]);
  });
});

describe("outcomes", () => {
  beforeEach(async () => {
    await store.write((t) => t.put("trial", trialRecord));
  });

  it("adds a row per grading; the latest of each grader counts and none is overwritten", async () => {
    await store.write((t) => t.addOutcomes("trial-1", [graded(2, 0.5), graded(1, 0.4)]));
    await store.write((t) => t.addOutcomes("trial-1", [graded(1, 0.1), graded(1, 0.2, "B")]));
    await store.read(async (r) => {
      expect((await r.outcomes("trial-1")).map((o) => [o.patch, o.grader, o.residue_percent])).toEqual([
        [1, "A", 10],
        [1, "B", 20],
        [2, "A", 50],
      ]);
      expect((await r.outcomeHistory("trial-1", 1)).map((o) => o.outcome.residue_percent)).toEqual([40, 10, 20]);
      expect(await r.outcomeHistory("trial-1")).toHaveLength(4);
    });
  });

  it("keeps none of a batch of which one does not fit", async () => {
    const batch = store.write((t) => t.addOutcomes("trial-1", [graded(1, 0.1), graded(9, 0.1)]));
    await expect(batch).rejects.toThrow("invalid outcome.patch: 9 (is not in trial trial-1)");
    expect(await store.read((r) => r.outcomes("trial-1"))).toEqual([]);
    await expect(store.write((t) => t.addOutcomes("other", [graded(1, 0.1)]))).rejects.toThrow(/is not in the store/);
  });
});

describe("answers", () => {
  const answer = {
    enquiry: "enquiry",
    enquiryVersion: 1,
    shape: "triage" as const,
    modelVersion: "m1",
    inputs: { seed: 7, drawCount: 64 },
    result: { verdict: "likely" as const, reasons: ["thin paint"] },
  };

  it("adds a row per run, with inputs and model version", async () => {
    const first = await store.write((t) => t.addAnswer(answer));
    const rerun = await store.write((t) => t.addAnswer({ ...answer, modelVersion: "m2" }));
    expect(rerun.id).not.toBe(first.id);
    await store.read(async (r) => {
      expect((await r.answers("enquiry")).map((a) => a.modelVersion)).toEqual(["m2", "m1"]);
      expect(await r.answer(first.id)).toEqual(first);
      expect(await r.answer("answer-99")).toBeNull();
      expect(await r.answer("1 OR 1=1")).toBeNull();
    });
  });

  it("refuses a result without its shape", async () => {
    const bad = store.write((t) => t.addAnswer({ ...answer, result: { verdict: "perhaps", reasons: [] } }));
    await expect(bad).rejects.toThrow(/^invalid verdict: perhaps \(must be one of/);
  });
});

describe("photos", () => {
  it("keeps the file beside the database and its hash inside", async () => {
    const bytes = new Uint8Array([1, 2, 3]);
    // sha256 of 01 02 03: published test value of any implementation, from `printf '\1\2\3' | sha256sum`
    const hash = "039058c6f2c0cb492c533b0a4d14ef77cc0f78abccced5287d84a1a2011cfb81";
    expect(await store.savePhoto(bytes, "image/png")).toBe(hash);
    expect(await store.savePhoto(bytes, "image/png")).toBe(hash);
    expect(readdirSync(join(folder, "work.db-photos"))).toEqual([hash]);
    expect(new Uint8Array((await store.photo(hash))!)).toEqual(bytes);
    expect(await store.read((r) => r.photos())).toMatchObject([{ sha256: hash, mediaType: "image/png", bytes: 3 }]);
    expect(await store.photo("0".repeat(64))).toBeNull();
    await expect(store.photo("../work.db")).rejects.toThrow(/^invalid photo/);
    await expect(store.savePhoto(bytes, "text/html")).rejects.toThrow(/^invalid photo type/);
    writeFileSync(join(folder, "work.db-photos", hash), "other");
    await expect(store.photo(hash)).rejects.toThrow(/has been damaged/);
  });
});

describe("transactions", () => {
  it("keeps all writes or none", async () => {
    const failing = store.write(async (t) => {
      await t.put("enquiry", enquiry("lost"));
      throw new Error("stop");
    });
    await expect(failing).rejects.toThrow("stop");
    expect(await store.read((r) => r.list("enquiry"))).toEqual([]);
  });

  it("runs one at a time, so that no reader sees half a change", async () => {
    const writing = store.write(async (t) => {
      await t.put("enquiry", enquiry("one"));
      await new Promise((resolve) => setTimeout(resolve, 20));
      await t.put("trial", trialRecord);
    });
    const reading = store.read(async (r) => [(await r.list("enquiry")).length, (await r.list("trial")).length]);
    expect(await reading).toEqual([1, 1]);
    await writing;
  });

  it("refuses to be nested and to be used when over", async () => {
    await expect(store.write(() => store.read((r) => r.list("trial")))).rejects.toThrow("use the reader");
    let kept: StoreReader | undefined;
    await store.read(async (r) => {
      kept = r;
    });
    expect(() => kept?.list("trial")).toThrow("this transaction is over");
  });

  it("is found again by another opening, and closes once", async () => {
    await store.write((t) => t.put("enquiry", enquiry("kept")));
    const other = openStore(join(folder, "work.db"));
    expect((await other.read((r) => r.list("enquiry")))[0]?.record.title).toBe("kept");
    await other.close();
    await other.close();
    await expect(other.read((r) => r.list("trial"))).rejects.toThrow("closed");
  });
});

describe("shop figures", () => {
  it("are kept in versions under the name of their enquiry, and found by it", async () => {
    const shop = (labour_per_h: number) => ({ id: "enquiry", enquiry: "enquiry", shop: { labour_per_h } });
    await store.write((t) => t.put("shop-record", shop(60), 0));
    await store.write((t) => t.put("shop-record", shop(70), 1));
    await store.read(async (r) => {
      expect((await r.latest("shop-record", "enquiry"))?.record.shop.labour_per_h).toBe(70);
      expect((await r.list("shop-record", "enquiry")).map((s) => s.version)).toEqual([2]);
      expect(await r.list("shop-record", "another")).toEqual([]);
    });
    const other = { ...shop(70), id: "another" };
    await expect(store.write((t) => t.put("shop-record", other))).rejects.toThrow(
      "invalid id: another (must be enquiry, as its enquiry)",
    );
  });
});
