import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { openStore, type Store } from "#store";
import { beliefToWire, settingToWire } from "#contract";
import { belief, enquiry, graded, trialRecord } from "./records.ts";

let folder: string;
let store: Store;
let tick = 0;
const at = (n: number) => `2026-01-01T00:00:${String(n).padStart(2, "0")}Z`;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "scourlight-lists-"));
  tick = 0;
  store = openStore(join(folder, "work.db"), { now: () => at(tick++) });
});
afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

const setting = belief.recommended!.setting;
describe("enquiries in short", () => {
  it("count trials, latest outcomes and answers, and name the set-ups once", async () => {
    const of = trialRecord.enquiry;
    await store.write(async (t) => {
      await t.put("enquiry", { ...enquiry("old name"), id: of });
      await t.put("enquiry", { ...enquiry("bare"), id: "bare" });
      await t.put("enquiry", { ...enquiry("named"), id: of, customer: "Yard", invented: true });
      await t.put("trial", trialRecord);
      await t.put("trial", trialRecord);
      await t.put("trial", { ...trialRecord, id: "trial-2" });
      await t.put("trial", { ...trialRecord, id: "trial-3", laser: "continuous-1500" });
      const first = trialRecord.patches[0]!.patch;
      const second = trialRecord.patches[1]!.patch;
      // the same grader twice is one latest outcome, two graders are two
      await t.addOutcomes("trial-1", [graded(first, 0.1), graded(first, 0.2), graded(second, 0, "B")]);
      await t.addOutcomes("trial-1", [graded(second, 0, "A")]);
      for (let i = 0; i < 2; i += 1)
        await t.addAnswer({
          enquiry: of,
          enquiryVersion: 1,
          shape: "triage",
          modelVersion: "m",
          inputs: {},
          result: { verdict: "declined", reasons: [] },
        });
    });
    const lines = await store.read((r) => r.enquiryLines());
    expect(lines.map((l) => [l.id, l.version, l.record.title, l.record.customer, l.record.invented])).toEqual([
      [of, 2, "named", "Yard", true],
      ["bare", 1, "bare", "", false],
    ]);
    expect([lines[0]!.trials, lines[0]!.outcomes, lines[0]!.answers]).toEqual([3, 3, 2]);
    expect([...lines[0]!.lasers].sort()).toEqual(["continuous-1500", trialRecord.laser].sort());
    expect([lines[1]!.trials, lines[1]!.outcomes, lines[1]!.answers, lines[1]!.lasers]).toEqual([0, 0, 0, []]);
    expect(lines[1]!.record.parts).toEqual(enquiry("bare").parts);
    expect(lines[0]!.savedAt).toBe(at(2));
  });

  it("agree with what reading everything counts", async () => {
    await store.write((t) => t.put("enquiry", enquiry("one")));
    await store.write((t) => t.put("enquiry", enquiry("two")));
    expect(await store.read((r) => r.heads("enquiry"))).toEqual(
      (await store.read((r) => r.list("enquiry"))).map(({ id, version, savedAt }) => ({ id, version, savedAt })),
    );
    expect(await store.read((r) => r.heads("trial"))).toEqual([]);
  });
});

describe("graded patches", () => {
  it("are the worst that the graders last said, patch by patch", async () => {
    const [a, b, c] = trialRecord.patches.map((p) => p.patch) as [number, number, number];
    await store.write(async (t) => {
      await t.put("trial", trialRecord);
      await t.addOutcomes("trial-1", [
        { ...graded(a, 0.5), metalCondition: 4 },
        { ...graded(a, 0.02), metalCondition: 1 },
        { ...graded(a, 0.07, "B"), metalCondition: null },
        { ...graded(b, 0), residue_percent: null, metalCondition: 3 },
        { ...graded(c, 0), residue_percent: null, metalCondition: null, lightness: 50 },
      ]);
    });
    expect(await store.read((r) => r.gradedPatches("trial-1"))).toEqual(
      [
        { patch: a, residueFraction: 0.07, metalCondition: 1 },
        { patch: b, residueFraction: null, metalCondition: 3 },
      ].sort((x, y) => x.patch - y.patch),
    );
    expect(await store.read((r) => r.gradedPatches("nowhere"))).toEqual([]);
  });
});

describe("windows in an answer", () => {
  const diagnostics = {
    patches: 3,
    clean: 1,
    damaged: 1,
    rHat: null,
    effectiveSampleSize: null,
    brierClean: null,
    brierUndamaged: null,
    priorMatters: "",
  };
  const recommended = {
    setting: settingToWire(setting),
    probabilityClean: 0.9,
    probabilityUndamaged: 0.9,
    probabilityBoth: 0.85,
    probabilityBothLow: 0.7,
    probabilityBothHigh: 0.9,
    margin: { logDose: 0.1, power_percent: 10, nearestEdge: "clean" },
    areaRate_m2_per_h: 1,
    repeats: 3,
    repeatsGood: 3,
    proven: true,
    words: [],
  };
  const window = (trial: string, found: boolean) => ({
    laser: "pulsed-100",
    trial,
    recommended: found ? recommended : null,
    next: [],
    map: null,
    diagnostics,
    words: [],
    caveats: [],
    cautions: [],
    modelVersion: "m",
  });
  const about = { enquiry: "enquiry", enquiryVersion: 1, modelVersion: "m", inputs: {} };

  it("come alone, of a window or of a whole answer; other shapes hold none", async () => {
    const part = { part: "p", name: "p", material: "m", unknowns: [], assumptions: [], verdicts: [], comparison: null };
    const triage = { verdict: "likely", reasons: [] };
    const trials = [
      { trial: trialRecord, outcomes: [], window: window("trial-1", true) },
      { trial: { ...trialRecord, id: "trial-2" }, outcomes: [], window: window("trial-2", false) },
      { trial: { ...trialRecord, id: "trial-3" }, outcomes: [], window: null },
    ];
    const answer = {
      enquiry: "enquiry",
      title: "t",
      invented: false,
      seed: 1,
      drawCount: 8,
      modelVersion: "m",
      parts: [{ ...part, triage, advice: [], trials }],
    };
    const ids = await store.write(async (t) => [
      (await t.addAnswer({ ...about, shape: "answer", result: answer })).id,
      (await t.addAnswer({ ...about, shape: "window", result: window("trial-1", true) })).id,
      (await t.addAnswer({ ...about, shape: "triage", result: triage })).id,
    ]);
    await store.read(async (r) => {
      const good = { setting: settingToWire(setting), proven: true };
      expect(await r.windowsIn(ids[0]!)).toEqual([
        { trial: "trial-1", recommended: good },
        { trial: "trial-2", recommended: null },
      ]);
      expect(await r.windowsIn(ids[1]!)).toEqual([{ trial: "trial-1", recommended: good }]);
      expect(await r.windowsIn(ids[2]!)).toEqual([]);
      expect(await r.windowsIn("answer-x")).toEqual([]);
    });
  });
});

describe("how far the store has grown", () => {
  it("shows in the numbers of the last rows and in the last change of an enquiry", async () => {
    const rows = () => store.read((r) => r.lastRows());
    const changed = () => store.read((r) => r.lastChange(trialRecord.enquiry));
    expect(await rows()).toEqual({ records: 0, library: 0, outcomes: 0, answers: 0 });
    expect(await changed()).toBeNull();
    await store.write((t) => t.put("enquiry", { ...enquiry("e"), id: trialRecord.enquiry }));
    expect(await changed()).toBe(at(0));
    await store.write((t) => t.put("trial", trialRecord));
    expect(await changed()).toBe(at(1));
    await store.write((t) => t.put("library", { id: "own", file: { source: "user", fromMemory: true, note: "own" } }));
    expect(await changed()).toBe(at(1));
    expect(await rows()).toEqual({ records: 3, library: 3, outcomes: 0, answers: 0 });
    await store.write((t) => t.addOutcomes("trial-1", [graded(trialRecord.patches[0]!.patch, 0)]));
    expect(await changed()).toBe(at(3));
    expect((await rows()).outcomes).toBe(1);
    await store.write((t) => t.put("belief", beliefToWire(belief)));
    expect((await rows()).records).toBe(4);
  });
});

describe("the logbook of an enquiry", () => {
  it("has every save of it, newest first, outcomes together as they came, and nothing of another", async () => {
    const of = trialRecord.enquiry;
    const [one, two] = [trialRecord.patches[0]!.patch, trialRecord.patches[1]!.patch];
    await store.write((t) => t.put("enquiry", { ...enquiry("e"), id: of }));
    await store.write((t) => t.put("trial", trialRecord));
    await store.write((t) =>
      t.addOutcomes("trial-1", [graded(one, 0.1, "A"), graded(two, 0, "A"), graded(two, 0, "B")]),
    );
    await store.write((t) => t.put("enquiry", { ...enquiry("again"), id: of }));
    await store.write((t) => t.put("enquiry", { ...enquiry("other"), id: "other" }));
    const lines = await store.read((r) => r.logbook(of, 10));
    expect(lines.map((l) => [l.what, l.id, l.version, l.count, l.grader])).toEqual([
      ["enquiry", of, 2, null, null],
      ["outcomes", "trial-1", null, 1, "B"],
      ["outcomes", "trial-1", null, 2, "A"],
      ["trial", "trial-1", 1, null, null],
      ["enquiry", of, 1, null, null],
    ]);
    expect(lines.map((l) => l.savedAt)).toEqual([...lines.map((l) => l.savedAt)].sort().reverse());
    expect(await store.read((r) => r.logbook(of, 2))).toEqual(lines.slice(0, 2));
    expect(await store.read((r) => r.logbook("none", 10))).toEqual([]);
  });
});
