import { beforeEach, describe, expect, it, vi } from "vitest";
import type { PartEnquiry } from "#terms";
import { Refused } from "../../../src/web/api/client.ts";
import type { GradingRecord } from "../../../src/web/api/photographs.ts";
import { Cancelled } from "../../../src/web/live/cancelled.ts";
import { PhotoIntake, type IntakeTools } from "../../../src/web/photographs/photo-intake.ts";
import type { KeptHere } from "../../../src/web/photographs/protocol.ts";
import { ruleOn } from "../../../src/web/photographs/rulings.ts";
import { Undecodable } from "../../../src/web/photographs/undecodable.ts";
import { gradedCoupon, hash, trial, wireOf } from "./graded.ts";

const grading = wireOf(gradedCoupon());
const ask = { trial, part: {} as PartEnquiry, cautions: [], printScale: 1, greys: null };
const file = (name: string): File => new File([name], name);
const unlike = [{ gate: "markers", sentence: "No marker is in it." }];

const nothing: KeptHere = { pending: [], refused: [] };
let kept = nothing;
beforeEach(() => {
  kept = nothing;
});

/** A server and a worker in miniature; the name's first letter stands for the bytes. */
function tools(change: { readonly read?: IntakeTools["read"] } = {}) {
  const saved: GradingRecord[] = [];
  const made = {
    putPhoto: vi.fn<IntakeTools["putPhoto"]>(async (given) => ({
      sha256: hash(given instanceof File ? given.name.slice(0, 1) : "f"),
    })),
    read: vi.fn<IntakeTools["read"]>(async (asked, say) => {
      say({ name: "a.jpg", stage: "reading", done: 0, of: asked.photos.length });
      return {
        gradings: [grading],
        flats: [{ sha256: hash("a"), file: new Blob(["flat"]) }],
        best: { 1: hash("a") },
        unread: [{ name: "z.jpg", gates: unlike }],
      };
    }),
    stopReading: vi.fn(),
    gradeOnServer: vi.fn<IntakeTools["gradeOnServer"]>(async () => ({
      gradings: [{ ...grading, flat: hash("e") }],
      unread: [],
      refused: [{ name: "c.heic", error: "invalid photo: HEIC (is damaged)" }],
    })),
    putGrading: vi.fn<IntakeTools["putGrading"]>(async (given, version) => {
      const record = { version: version + 1, savedAt: "2026-11-25T10:00:00.000Z", grading: given };
      saved.splice(0, 1, record);
      return record;
    }),
    gradings: async () => [...saved],
    noteFlat: vi.fn(),
    kept: () => kept,
    keep: (next: KeptHere) => {
      kept = next;
    },
  };
  if (change.read) made.read.mockImplementation(change.read);
  return { saved, made, intake: new PhotoIntake(trial.id, made) };
}

describe("photographs on their way", () => {
  it("are kept first, then read, then saved with the picture laid flat; what shows no coupon is named", async () => {
    const { intake, made, saved } = tools();
    const heard: string[] = [];
    intake.subscribe(() => heard.push(intake.state().busy?.words ?? ""));
    await intake.add([file("a.jpg"), file("b.jpg"), file("z.jpg")], ask);
    expect(made.read.mock.calls[0]![0].photos.map((p) => p.sha256)).toEqual([hash("a"), hash("b"), hash("z")]);
    expect(heard).toContain("Keeping photograph 2 of 3: b.jpg");
    expect(heard).toContain("Reading photograph 1 of 3: a.jpg");
    expect(saved[0]!.grading).toEqual({ ...grading, flat: hash("f") });
    expect(made.noteFlat).toHaveBeenCalledWith(hash("a"), 1, expect.any(Blob));
    expect(intake.state()).toMatchObject({ busy: null, failure: null, pending: [] });
    expect(intake.state().refused).toEqual([{ name: "z.jpg", line: "No marker is in it." }]);
    intake.dismiss("z.jpg");
    expect(intake.state().refused).toEqual([]);
  });

  it("that are none, too large, given twice, or meet no server are named, and the rest goes on", async () => {
    const { intake, made } = tools();
    made.putPhoto.mockImplementation(async (given) => {
      const { name } = given as File;
      if (name === "text.jpg") throw new Refused(400, "invalid photo: another kind of file (must be a picture)");
      if (name === "away.jpg") throw new Refused(0, "the server cannot be reached");
      return { sha256: hash(name ? name.slice(0, 1) : "f") };
    });
    const huge = file("huge.jpg");
    Object.defineProperty(huge, "size", { value: 30_000_001 });
    await intake.add([file("text.jpg"), huge, file("away.jpg"), file("a.jpg"), file("a-copy.jpg")], ask);
    const lines = Object.fromEntries(intake.state().refused.map((r) => [r.name, r.line]));
    expect(lines["text.jpg"]).toMatch(/^invalid photo: another kind/);
    expect(lines["huge.jpg"]).toMatch(/30 MB/);
    expect(lines["away.jpg"]).toMatch(/^not kept/);
    expect(lines["a-copy.jpg"]).toBe("is the same file as a.jpg");
    expect(made.read.mock.calls[0]![0].photos).toEqual([{ name: "a.jpg", sha256: hash("a"), coupon: null }]);
  });

  it("that the server keeps already are read without being sent, each once", async () => {
    const { intake, made, saved } = tools();
    const taken = [
      { name: "machine, coupon 1", sha256: hash("a") },
      { name: "machine, coupon 1", sha256: hash("b") },
      { name: "again", sha256: hash("a") },
    ];
    await intake.addKept(taken, ask);
    expect(made.read.mock.calls[0]![0].photos).toEqual([
      { name: "machine, coupon 1", sha256: hash("a"), coupon: null },
      { name: "machine, coupon 1 (2)", sha256: hash("b"), coupon: null },
    ]);
    expect(saved).toHaveLength(1);
    // only the picture laid flat was sent
    expect(made.putPhoto).toHaveBeenCalledTimes(1);
    const inside = new Set(grading.photos.map((p) => p.sha256));
    made.read.mockClear();
    await intake.addKept([{ name: "x", sha256: [...inside][0]! }], ask);
    expect(made.read).not.toHaveBeenCalled();
  });

  it("go to the server where this browser cannot open one", async () => {
    const { intake, made, saved } = tools({
      read: async () => {
        throw new Undecodable("c.heic");
      },
    });
    await intake.add([file("a.jpg"), file("c.heic")], ask);
    expect(made.gradeOnServer).toHaveBeenCalledWith(
      trial.id,
      [
        { name: "a.jpg", sha256: hash("a") },
        { name: "c.heic", sha256: hash("c") },
      ],
      expect.objectContaining({ printScale: 1, greys: null }),
      expect.any(AbortSignal),
    );
    expect(saved[0]!.grading.flat).toBe(hash("e"));
    expect(intake.state().refused[0]).toEqual({ name: "c.heic", line: "invalid photo: HEIC (is damaged)" });
  });

  it("are not lost when reading fails or is stopped: they wait, also after a reload, and are read with the rest", async () => {
    const first = tools({
      read: async () => {
        throw new Error("out of memory");
      },
    });
    await first.intake.add([file("a.jpg")], ask);
    expect(first.intake.state()).toMatchObject({ failure: "out of memory", busy: null });
    const second = tools({
      read: async () => {
        throw new Cancelled("cancelled");
      },
    });
    expect(second.intake.state().pending).toEqual([{ name: "a.jpg", sha256: hash("a") }]);
    await second.intake.add([file("b.jpg")], ask);
    expect(second.intake.state()).toMatchObject({ cancelled: true, failure: null });
    expect(second.intake.state().pending).toHaveLength(2);
    const third = tools();
    await third.intake.readPending(ask);
    expect(third.made.read.mock.calls[0]![0].photos).toHaveLength(2);
    expect(third.intake.state().pending).toEqual([]);
    expect(third.saved).toHaveLength(1);
  });

  it("stop between two files when they are told to", async () => {
    const { intake, made } = tools();
    made.putPhoto.mockImplementation(async (given) => {
      intake.cancel();
      return { sha256: hash((given as File).name.slice(0, 1)) };
    });
    await intake.add([file("a.jpg"), file("b.jpg")], ask);
    expect(made.putPhoto).toHaveBeenCalledTimes(1);
    expect(made.stopReading).toHaveBeenCalled();
    expect(made.read).not.toHaveBeenCalled();
    expect(intake.state()).toMatchObject({ cancelled: true, pending: [{ name: "a.jpg" }] });
  });

  it("take over what people said, also what was said while they were read, and names stay apart", async () => {
    const { intake, made, saved } = tools();
    await intake.add([file("a.jpg")], ask);
    const overruled = { patch: 2, grader: "Kim", residue_percent: 40, metalCondition: null, note: "" };
    const photos = [...grading.photos, { ...grading.photos[0]!, name: "d.jpg", sha256: hash("d") }];
    const fresh = { ...grading, photos };
    made.read.mockImplementation(async () => ({ gradings: [fresh], flats: [], best: {}, unread: [] }));
    let conflicts = 1;
    made.putGrading.mockImplementation(async (given, version) => {
      if (conflicts-- > 0) {
        saved[0] = { ...saved[0]!, version: 2, grading: ruleOn(saved[0]!.grading, 2, overruled) };
        throw new Refused(409, "grading has moved on");
      }
      return { version: version + 1, savedAt: "", grading: given };
    });
    await intake.add(
      [new File(["other"], "a.jpg")].map((f) => Object.assign(f, {})),
      ask,
    );
    // the same letter means the same bytes here
    expect(intake.state().refused.at(-1)).toMatchObject({ name: "a.jpg (2)", line: "is the same file as a.jpg" });
    await intake.add([file("d.jpg")], ask);
    const [given, version] = made.putGrading.mock.calls.at(-1)!;
    expect(version).toBe(2);
    expect(given.patches.find((p) => p.patch === 2)!.ruling).toEqual(overruled);
    expect(intake.state().failure).toBeNull();
  });

  it("leave coupons alone that nothing was added to, unless all are read again", async () => {
    const { intake, made, saved } = tools();
    await intake.add([file("a.jpg")], ask);
    const other = { ...grading, coupon: 2, photos: [{ ...grading.photos[0]!, name: "d.jpg", sha256: hash("d") }] };
    made.read.mockImplementation(async () => ({ gradings: [grading, other], flats: [], best: {}, unread: [] }));
    made.putGrading.mockClear();
    await intake.add([file("d.jpg")], ask);
    const [asked] = made.read.mock.calls.at(-1)!;
    expect(asked.all).toBe(false);
    expect(asked.photos.map((p) => [p.name, p.coupon])).toEqual([
      ["a.jpg", 1],
      ["b.jpg", 1],
      ["d.jpg", null],
    ]);
    expect(made.putGrading.mock.calls.map(([given]) => given.coupon)).toEqual([2]);
    made.putGrading.mockClear();
    await intake.readAgain(ask);
    expect(made.read.mock.calls.at(-1)![0].all).toBe(true);
    expect(made.putGrading.mock.calls.map(([given]) => given.coupon)).toEqual([1, 2]);
    expect(saved.length).toBeGreaterThan(0);
  });
});
