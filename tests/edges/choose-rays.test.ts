import { chooseRays, LEVEL_LOWEST, type PatchEdges, type RayLook } from "#edges";
import { createRandom } from "#numerics";
import { describe, expect, it } from "vitest";
import { pulsed } from "../calibration/synthetic.ts";

const edges = (clean: number, damage: number): PatchEdges => ({
  half: clean - 0.2,
  clean,
  melt: damage - 0.1,
  damage,
});
const look = (areaRate: number, ...of: readonly (readonly [number, number])[]): RayLook => ({
  setting: pulsed(areaRate),
  areaRate,
  edges: of.map(([clean, damage]) => edges(clean, damage)),
});
const random = createRandom(4);
/** Six versions; the faster a setting, the fewer of them it works in. */
const many = Array.from({ length: 60 }, (_, i) =>
  look(
    1 + i,
    ...Array.from({ length: 6 }, (): [number, number] => {
      const clean = -1.8 + 0.03 * i + 0.4 * random.normal();
      return [clean, clean + 0.5 + 0.3 * random.normal()];
    }),
  ),
);
const room = (e: PatchEdges) => Math.min(e.damage, 0) - Math.max(e.clean, LEVEL_LOWEST);

describe("rays to solve in full", () => {
  it("hold for each version a setting as good as the best of all, or nearly", () => {
    const chosen = chooseRays(many, 16, 1);
    expect(chosen).toHaveLength(16);
    expect(new Set(chosen).size).toBe(16);
    for (let v = 0; v < 6; v++) {
      const value = (i: number) => many[i]!.areaRate * Math.max(0, Math.min(1, room(many[i]!.edges[v]!) / 0.2));
      const best = Math.max(...many.map((_, i) => value(i)));
      expect(Math.max(...chosen.map(value))).toBeGreaterThan(0.9 * best);
    }
  });

  it("take first what serves most versions fastest", () => {
    const both = look(10, [-1, -0.2], [-1, -0.2]);
    const one = look(12, [-1, -0.2], [1, -0.2]);
    const slow = look(1, [-1, -0.2], [-1, -0.2]);
    expect(chooseRays([slow, one, both], 1, 1)).toEqual([2]);
    expect(chooseRays([slow, one, both], 2, 1)).toEqual([2, 1]);
  });

  it("are the same for the same seed, all where all fit, none of none", () => {
    expect(chooseRays(many, 20, 7)).toEqual(chooseRays(many, 20, 7));
    expect([...chooseRays(many, 99, 7)].sort((a, b) => a - b)).toEqual(many.map((_, i) => i));
    expect(chooseRays([], 5, 7)).toEqual([]);
    expect(chooseRays(many, 0, 7)).toEqual([]);
  });

  it("are those nearest to a window where no version has one", () => {
    const hopeless = [look(1, [2, -2]), look(1, [0.6, -0.5]), look(1, [1.5, -1])];
    expect(chooseRays(hopeless, 1, 3)).toEqual([1]);
  });
});
