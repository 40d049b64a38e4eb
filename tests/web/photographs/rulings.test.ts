import { describe, expect, it } from "vitest";
import { rulingToWire, validatePublished } from "#contract";
import { type PatchRuling, withRulings } from "#grading";
import { bestPhoto, markText, residueText, toLook } from "../../../src/web/photographs/reading-text.ts";
import { acceptPlain, carryRulings, plainReadings, ruledPatch, ruleOn } from "../../../src/web/photographs/rulings.ts";
import { gradedCoupon, reading, wireOf } from "./graded.ts";

const flag = { gate: "spread", sentence: "Look at it." };
// unlike in residue, metal and doubt, so that no two rules give the same by accident
const graded = gradedCoupon({
  2: reading(2, 0.4),
  3: reading(3, 0.045),
  4: reading(4, null, { melt: null, tint: null, lightness: null }),
  5: reading(5, 0.01, { flags: [flag] }),
  6: reading(6, 0.01, { melt: null, tint: null }),
  7: reading(7, null),
});
const grading = wireOf(graded);
const of = (wire: typeof grading, patch: number) => wire.patches.find((p) => p.patch === patch)!;
const ruling = (patch: number, change: Partial<PatchRuling> = {}): PatchRuling => ({
  patch,
  grader: "Kim",
  residueFraction: null,
  metalCondition: null,
  note: "",
  ...change,
});

describe("what a person says of readings on the pages", () => {
  it.each([
    ruling(2),
    ruling(2, { residueFraction: 0.02 }),
    ruling(3, { residueFraction: 0.05, note: "edge only" }),
    ruling(3, { metalCondition: 2 }),
    ruling(4, { residueFraction: 0.3, metalCondition: 1, note: "by eye" }),
    ruling(4, { metalCondition: 0 }),
    ruling(7),
  ])("comes out as the grading room has it: %o", (one) => {
    expect(ruleOn(grading, one.patch, rulingToWire(one))).toEqual(wireOf(withRulings(graded, [one])));
  });

  it("is refused as there: nothing to accept, a share beyond 100 %, no name", () => {
    const say = (patch: number, change: Partial<PatchRuling>) => () =>
      ruledPatch(of(grading, patch), rulingToWire(ruling(patch, change)), 5);
    expect(say(2, { residueFraction: 1.2 })).toThrow(/^invalid residue/);
    expect(say(2, { grader: " " })).toThrow(/^invalid grader/);
    expect(() => withRulings(graded, [ruling(4)])).toThrow(/^invalid ruling/);
  });

  it("can be taken back without a trace, also where the reading was not settled", () => {
    for (const patch of [2, 4, 7]) {
      const said = ruleOn(grading, patch, rulingToWire(ruling(patch, { residueFraction: 0.9 })));
      expect(of(said, patch).verdict).toBe("residue");
      expect(ruleOn(said, patch, null)).toEqual(grading);
    }
    expect(of(grading, 4).outcome).toBeNull();
  });

  it("never calls what is not settled clean", () => {
    expect(of(grading, 4).verdict).toBe("not settled");
    expect(residueText(of(grading, 4))).toBe("not settled");
    expect(markText(of(grading, 4))).toBe("Patch 4, not settled, not settled");
    // metal alone settles no residue
    const metal = ruleOn(grading, 4, rulingToWire(ruling(4, { metalCondition: 0 })));
    expect(of(metal, 4).verdict).toBe("not settled");
  });
});

describe("all that are plain", () => {
  it("are accepted in one step: flagged, near, unsettled and unclear ones stay to be looked at", () => {
    const plain = plainReadings(grading).map((p) => p.patch);
    expect(plain).toContain(2);
    expect(plain).toContain(8);
    for (const patch of [1, 3, 4, 5, 6, 7, 24]) expect(plain, `patch ${patch}`).not.toContain(patch);
    expect(grading.patches.filter(toLook).map((p) => p.patch)).toEqual([3, 4, 5, 6, 7]);
    const done = acceptPlain(grading, "Kim");
    expect(done.patches.filter((p) => p.ruling !== null).map((p) => p.patch)).toEqual(plain);
    expect(done).toEqual(
      wireOf(
        withRulings(
          graded,
          plain.map((patch) => ruling(patch)),
        ),
      ),
    );
    expect(validatePublished("grading", done, "grading")).toEqual(done);
    expect(plainReadings(done)).toEqual([]);
  });
});

describe("a coupon read anew", () => {
  it("keeps what was overruled, and what was accepted only where the reading is the same", () => {
    let before = ruleOn(grading, 2, rulingToWire(ruling(2, { residueFraction: 0.02, note: "rim" })));
    before = ruleOn(before, 8, rulingToWire(ruling(8)));
    before = ruleOn(before, 9, rulingToWire(ruling(9)));
    before = ruleOn(before, 4, rulingToWire(ruling(4, { residueFraction: 0.3 })));
    const fresh = wireOf(
      gradedCoupon({ 2: reading(2, 0.5), 8: reading(8, 0.011), 9: reading(9, 0.0104), 4: reading(4, 0.2) }),
    );
    const carried = carryRulings(before, fresh);
    expect(of(carried, 2)).toMatchObject({ ruling: { residue_percent: 2, note: "rim" }, verdict: "clean" });
    expect(of(carried, 2).read!.residue_percent).toBeCloseTo(50, 9);
    expect(of(carried, 2).outcome!.residue_percent).toBe(2);
    expect(of(carried, 8).ruling).toBeNull();
    expect(of(carried, 9).ruling).toMatchObject({ grader: "Kim", residue_percent: null });
    expect(of(carried, 4).outcome!.residue_percent).toBe(30);
    expect(carryRulings(null, fresh)).toEqual(fresh);
  });
});

describe("the words of a reading", () => {
  it("say what was read beside what a person said, and what would not show", () => {
    expect(residueText(of(grading, 2))).toBe("40 %");
    expect(residueText(of(grading, 8))).toBe("< 3 %");
    const said = of(ruleOn(grading, 2, rulingToWire(ruling(2, { residueFraction: 0.02 }))), 2);
    expect(markText(said)).toBe("Patch 2, clean, 2 % by Kim (photograph: 40 %), overruled by Kim");
    expect(markText(of(grading, 1))).toBe("Patch 1, untouched");
    expect(bestPhoto(grading)).toBeNull();
    const placed = { ...grading, photos: grading.photos.map((p) => ({ ...p, scale_px_per_mm: 5 })) };
    expect(bestPhoto(placed)!.name).toBe("a.jpg");
  });
});
