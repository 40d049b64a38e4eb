import { EDGE_SPAN, type PatchEdges, patchEdges } from "#edges";
import { createRandom } from "#numerics";
import type { PatchResult } from "#terms";
import { describe, expect, it } from "vitest";

const acceptance = { residueMax: 0.05, metalConditionMax: 1 as const };
interface Thresholds {
  readonly half: number;
  readonly clean: number;
  readonly melt: number;
  readonly damage: number;
}

/** A patch whose verdicts change where they are told to; harm shows in the grade, in the margin, or in both. */
function patchWith(t: Thresholds, harm: "grade" | "margin" | "both" = "both") {
  const asked: number[] = [];
  const at = (u: number): PatchResult => {
    asked.push(u);
    return {
      residueFraction: u < t.half ? 0.9 : u < t.clean ? 0.2 : 0.01,
      meltingRatio: u < t.melt ? 0.8 : 1.2,
      metalCondition: harm !== "margin" && u >= t.damage ? 3 : 0,
      damageMargin: harm === "grade" ? 1 : t.damage - u,
      metalPeakTemperature: 300,
      meltDepth: 0,
      meltedShare: 0,
      oxideThickness: 0,
      magnetiteShare: 0,
      startTemperature: 300,
      stayLayerHarmed: 0,
      removedBy: "eaten",
    };
  };
  return { at, asked };
}

/** Far from any machine's knob an edge is found to 0.3 only. */
function expectAt(found: PatchEdges, ends: readonly number[]) {
  [found.half, found.clean, found.melt, found.damage].forEach((edge, k) => {
    expect(Math.abs(edge)).toBeLessThanOrEqual(EDGE_SPAN);
    expect(Math.abs(edge - ends[k]!)).toBeLessThan(0.151);
  });
}

/** How far an edge may be off: half of the width to which it is found. */
const within = (edge: number, fine: number) => (edge < -2.1 || edge > 0.7 ? 0.151 : fine / 2 + 1e-9);

describe("the edges of a patch along its power", () => {
  it("are found wherever they lie and wherever the search begins", () => {
    const random = createRandom(5);
    const between = (a: number, b: number) => a + (b - a) * random.next();
    let most = 0;
    let total = 0;
    for (let round = 0; round < 400; round++) {
      const clean = between(-2.8, 2.8);
      const damage = between(-2.8, 2.8);
      const t = { clean, half: clean - between(0, 0.6), damage, melt: damage - between(0, 0.5) };
      const { at, asked } = patchWith(t, (["grade", "margin", "both"] as const)[round % 3]!);
      const guess = round % 2 ? { clean: between(-3, 3), damage: between(-3, 3) } : undefined;
      const found = patchEdges(at, acceptance, guess);
      expect(Math.abs(found.clean - clean)).toBeLessThan(within(clean, 0.03));
      expect(Math.abs(found.damage - damage)).toBeLessThan(within(damage, 0.03));
      // Where the coarse one would come out above the fine one it is held there.
      expect(Math.abs(found.half - Math.max(-EDGE_SPAN, t.half))).toBeLessThan(within(t.half, 0.08) + 0.015);
      expect(Math.abs(found.melt - Math.max(-EDGE_SPAN, t.melt))).toBeLessThan(within(t.melt, 0.08) + 0.015);
      expect(found.half).toBeLessThanOrEqual(found.clean);
      expect(found.melt).toBeLessThanOrEqual(found.damage);
      expect(new Set(asked).size).toBe(asked.length);
      most = Math.max(most, asked.length);
      total += asked.length;
    }
    expect(most).toBeLessThan(45);
    expect(total / 400).toBeLessThan(25);
  });

  it("take few looks where the guess is good and the margin tells where the metal suffers", () => {
    const { at, asked } = patchWith({ half: -0.9, clean: -0.8, melt: -0.25, damage: -0.2 }, "margin");
    const found = patchEdges(at, acceptance, { clean: -0.78, damage: 1 });
    expect(Math.abs(found.damage - -0.2)).toBeLessThan(0.016);
    expect(asked.length).toBeLessThan(16);
  });

  it("stand at the end of the span where they lie beyond", () => {
    const beyond = patchWith({ half: 4, clean: 5, melt: 6, damage: 7 }, "grade");
    expectAt(patchEdges(beyond.at, acceptance), [3, 3, 3, 3]);
    const below = patchWith({ half: -7, clean: -6, melt: -5, damage: -4 }, "grade");
    expectAt(patchEdges(below.at, acceptance), [-3, -3, -3, -3]);
    expect(beyond.asked.length).toBeLessThan(30);
    const mixed = patchWith({ half: -7, clean: -6, melt: 5, damage: 6 }, "margin");
    expectAt(patchEdges(mixed.at, acceptance, { clean: 2.9, damage: -2.9 }), [-3, -3, 3, 3]);
  });

  it("keep their order and stay within the span where the physics turns back on itself", () => {
    const random = createRandom(8);
    for (let round = 0; round < 100; round++) {
      const phase = 6 * random.next();
      const { at } = patchWith({ half: 0, clean: 0, melt: 0, damage: 0 });
      const found = patchEdges(
        (u) => ({
          ...at(u),
          residueFraction: 0.5 + 0.5 * Math.sin(5 * u + phase),
          meltingRatio: 1 + Math.sin(3 * u + phase),
        }),
        acceptance,
        { clean: random.normal(), damage: random.normal() },
      );
      for (const edge of Object.values(found)) expect(Math.abs(edge)).toBeLessThanOrEqual(EDGE_SPAN);
      expect(found.half).toBeLessThanOrEqual(found.clean);
      expect(found.melt).toBeLessThanOrEqual(found.damage);
    }
  });
});
