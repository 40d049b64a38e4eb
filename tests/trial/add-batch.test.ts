import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parseTrial } from "#contract";
import { addBatch, isLaterStage } from "#trial";
import { sameSetting } from "#window";

const trial = parseTrial(
  JSON.parse(readFileSync(new URL("../../examples/hatch-covers.pulsed.trial.json", import.meta.url), "utf8")),
);
const burned = trial.patches.filter((p) => p.setting !== null && p.replicateOf === null);
const [first, second] = burned;
const fresh = { ...first!.setting!, speed: 1.2345 };
const batch = {
  coupons: [{ coupon: 1, width: 0.15, height: 0.1, label: "1" }],
  patches: [
    { ...first!, patch: 1, coupon: 1, role: "untouched" as const, setting: null, runOrder: 0, replicateOf: null },
    { ...first!, patch: 2, coupon: 1, role: "test" as const, runOrder: 2, replicateOf: null },
    { ...first!, patch: 3, coupon: 1, role: "replicate" as const, runOrder: 1, replicateOf: 2 },
    { ...second!, patch: 4, coupon: 1, role: "test" as const, setting: fresh, runOrder: 3, replicateOf: null },
    { ...second!, patch: 5, coupon: 1, role: "replicate" as const, setting: fresh, runOrder: 4, replicateOf: 4 },
  ],
  reasons: ["re-burn"],
};

describe("a further batch", () => {
  const later = addBatch(trial, batch, 2, sameSetting);
  const added = later.patches.slice(trial.patches.length);

  it("goes on in numbers, coupons and turns and changes nothing that was planned", () => {
    expect(later.patches.slice(0, trial.patches.length)).toEqual(trial.patches);
    const [n, c] = [trial.patches.length, trial.coupons.length];
    const turns = Math.max(...trial.patches.map((p) => p.runOrder));
    expect(added.map((p) => [p.patch - n, p.coupon - c, p.runOrder === 0 ? 0 : p.runOrder - turns])).toEqual([
      [1, 1, 0],
      [2, 1, 2],
      [3, 1, 1],
      [4, 1, 3],
      [5, 1, 4],
    ]);
    expect(later.coupons.at(-1)).toMatchObject({ coupon: c + 1, label: `${c + 1}, batch 2` });
    expect(later.reasons.at(-1)).toBe("Batch 2: re-burn");
    expect(isLaterStage(trial, later)).toBe(true);
  });

  it("counts a setting that was burned before as its repeat, and repeats within the batch by their new numbers", () => {
    expect(added.map((p) => [p.role, p.replicateOf])).toEqual([
      ["untouched", null],
      ["replicate", first!.patch],
      ["replicate", first!.patch],
      ["test", null],
      ["replicate", trial.patches.length + 4],
    ]);
  });

  it("is told from another plan", () => {
    expect(isLaterStage(later, trial)).toBe(false);
    const [one, ...rest] = later.patches;
    expect(isLaterStage(trial, { ...later, patches: [{ ...one!, x: one!.x + 1e-3 }, ...rest] })).toBe(false);
    expect(isLaterStage(trial, { ...later, seed: 1 })).toBe(false);
    expect(() => addBatch(trial, batch, 1, sameSetting)).toThrow("invalid batch: 1");
  });
});
