import { describe, expect, it } from "vitest";
import { fineCell, isApproximateCell, predictPatch } from "#patch";
import { compare } from "../patch/map-settings.ts";

describe("the repeating cell against the full map, 200 seeded settings", () => {
  const all = compare(200, 17).map((c) => {
    const inside = c.full.figures.interior!;
    const fine = predictPatch(
      c.draw,
      { ...c.plan, cell: fineCell(c.plan) },
      { metalConditionMax: 1, metalTemperatureMax: null },
    );
    return { ...c, inside, fine };
  });
  const share = (holds: (c: (typeof all)[number]) => boolean) => all.filter(holds).length / all.length;

  it("meets settings that leave nothing, something and everything", () => {
    for (const [low, high] of [
      [-1, 0.02],
      [0.02, 0.98],
      [0.98, 2],
    ] as const)
      expect(share((c) => c.inside.residue > low && c.inside.residue <= high)).toBeGreaterThan(0.05);
  });

  it("fine cell: residue within 0.02 and the same metal condition in 98 % of them", () => {
    expect(share((c) => Math.abs(c.fine.residueFraction - c.inside.residue) <= 0.02)).toBeGreaterThanOrEqual(0.98);
    expect(share((c) => c.fine.metalCondition === c.inside.metalCondition)).toBeGreaterThanOrEqual(0.98);
  });

  it("own cell of a plan: within 0.02 in 98 % of those that are not marked approximate", () => {
    const sure = all.filter((c) => !isApproximateCell(c.plan, c.fast.residueFraction));
    expect(sure.length).toBeGreaterThan(100);
    const far = sure.filter((c) => Math.abs(c.fast.residueFraction - c.inside.residue) > 0.02);
    expect(far.length / sure.length).toBeLessThanOrEqual(0.02);
    expect(share((c) => c.fast.metalCondition === c.inside.metalCondition)).toBeGreaterThanOrEqual(0.98);
  });
});
