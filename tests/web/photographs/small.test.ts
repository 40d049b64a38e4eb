import { describe, expect, it } from "vitest";
import type { Outcome } from "#terms";
import { emptyOutcome } from "../../../src/web/api/trials.ts";
import { nextInDirection } from "../../../src/web/photographs/next-patch.ts";
import { sheetAsPrinted } from "../../../src/web/photographs/sheet-as-printed.ts";
import { isGraded, seenPatches, typedOver } from "../../../src/web/show/seen-patches.ts";

describe("the frame sheet as printed", () => {
  it("takes the ruler in mm, with comma or point, and seven rising greys", () => {
    expect(sheetAsPrinted({ ruler: "", greys: "" }, 180)).toEqual({ printScale: 1, greys: null });
    expect(sheetAsPrinted({ ruler: "174,6", greys: "" }, 180)).toEqual({ printScale: 0.97, greys: null });
    expect(sheetAsPrinted({ ruler: "189", greys: "20 30; 41,5 55 70 80.5 95" }, 180)).toEqual({
      printScale: 1.05,
      greys: [20, 30, 41.5, 55, 70, 80.5, 95],
    });
  });

  it.each([
    ["20", "", "ruler"],
    ["long", "", "ruler"],
    ["", "20 30 40 50 60 70", "greys"],
    ["", "20 30 40 50 60 70 70", "greys"],
    ["", "20 30 40 50 60 70 170", "greys"],
    ["", "20 30 40 x 60 70 80", "greys"],
  ])("says which field does not fit: ruler %s, greys %s", (ruler, greys, wrong) => {
    expect(sheetAsPrinted({ ruler, greys }, 180)).toEqual({ wrong });
  });
});

describe("arrow keys on a coupon", () => {
  // 1 2 3 above 4 5, the lower row half a patch to the right
  const at = (patch: number, x: number, y: number) => ({ patch, x, y, width: 0.01, height: 0.01 });
  const patches = [at(1, 0, 0.02), at(2, 0.02, 0.02), at(3, 0.04, 0.02), at(4, 0.005, 0), at(5, 0.03, 0)];
  it("go to the nearest patch that way, and nowhere at the edge", () => {
    expect(nextInDirection(patches, 1, "ArrowRight")).toBe(2);
    expect(nextInDirection(patches, 3, "ArrowLeft")).toBe(2);
    expect(nextInDirection(patches, 1, "ArrowDown")).toBe(4);
    expect(nextInDirection(patches, 5, "ArrowUp")).toBe(2);
    expect(nextInDirection(patches, 3, "ArrowRight")).toBeNull();
    expect(nextInDirection(patches, 1, "ArrowUp")).toBeNull();
    expect(nextInDirection(patches, 1, "a")).toBeNull();
    // more above than beside is not beside
    expect(nextInDirection([at(1, 0, 0), at(2, 0.01, 0.03)], 1, "ArrowRight")).toBeNull();
    expect(nextInDirection([at(1, 0, 0), at(2, 0.01, 0.03)], 1, "ArrowUp")).toBe(2);
  });
});

describe("outcomes of several graders", () => {
  const seen = (patch: number, grader: string, change: Partial<Outcome>): Outcome => ({
    ...emptyOutcome("t", patch),
    grader,
    ...change,
  });
  const outcomes = [
    seen(2, "Kim", {
      residueFraction: 0.1,
      residueUncertainty: 0.02,
      metalCondition: 3,
      lightness: 70,
      note: "by eye",
    }),
    seen(2, "photographs", { residueFraction: 0.2, residueUncertainty: 0.05, note: "" }),
    seen(3, "photographs", {}),
  ];

  it("stand as one for each patch, the last that says something first", () => {
    const [two, three] = seenPatches(outcomes);
    expect(two).toMatchObject({ residueFraction: 0.2, residueUncertainty: 0.05, metalCondition: 3, lightness: 70 });
    expect(two!.note).toBe("by eye");
    expect([isGraded(two!), isGraded(three!)]).toEqual([true, false]);
    // a withdrawn reading does not hide what a person saw
    const withdrawn = seenPatches([outcomes[0]!, seen(2, "photographs", {})]);
    expect(withdrawn[0]).toMatchObject({ residueFraction: 0.1, residueUncertainty: 0.02 });
  });

  it("are typed over beside the photographs' own", () => {
    const empty = emptyOutcome("t", 3);
    expect(typedOver(outcomes, 2, empty)).toBe(outcomes[0]);
    expect(typedOver(outcomes, 3, empty)).toBe(empty);
  });
});
