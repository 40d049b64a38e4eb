import { describe, expect, it } from "vitest";
import { betaIncomplete } from "#numerics";
import { cleanPoints, gaugePoints, photoPath, residueFromPoints } from "#grading";
import { layerKind, metal } from "#library";
import type { Acceptance, ColourClass, Stack } from "#terms";

const stackOf = (metalId: string, ...layers: readonly (readonly [string, ColourClass, boolean?])[]): Stack => ({
  metal: metal(metalId),
  metalThickness: 0.003,
  layers: layers.map(([id, colour, mustStay = false]) => {
    const kind = layerKind(id);
    return { kind, colour, thickness: kind.usualThickness, mustStay };
  }),
});
const allow = (residueMax: number): Acceptance => ({
  residueMax,
  metalConditionMax: 1,
  metalTemperatureMax: null,
  tests: [],
  confidence: 0.8,
});

describe("before a trial: can photographs settle it?", () => {
  it("yes for dark paint or rust on steel at an acceptance of 5 %", () => {
    for (const layer of [
      ["alkyd", "dark"],
      ["red-rust", "natural"],
      ["mill-scale", "natural"],
    ] as const) {
      const path = photoPath(stackOf("steel-low-carbon", layer), allow(0.05));
      expect(path).toMatchObject({ answer: "yes", reasons: [], ways: [] });
      expect(path.difference).toBeGreaterThan(30);
    }
  });

  it.each([
    ["zinc on steel", stackOf("steel-low-carbon", ["zinc-coating", "natural"]), "cross-polarised", "differ by ΔE00"],
    [
      "oil",
      stackOf("steel-low-carbon", ["oil-film", "natural"]),
      "water-break",
      "a film that a photograph does not show",
    ],
    ["rubber", stackOf("steel-low-carbon", ["rubber-residue", "natural"]), "raking-light", "smear"],
    ["clear lacquer", stackOf("copper", ["clear-lacquer", "clear"]), "ultraviolet", "is clear"],
  ] as const)("no for %s, and what to do first", (_, stack, first, reason) => {
    const path = photoPath(stack, allow(0.05));
    expect(path.answer).toBe("no");
    expect(path.reasons[0]).toContain(reason);
    expect(path.ways[0]!.way).toBe(first);
    for (const words of [...path.reasons, ...path.ways.map((w) => w.words)]) expect(words).not.toMatch(/NaN|null|safe/);
  });

  it("no where less than 2 % is allowed, perhaps below 5 %, and says at how many points to gauge", () => {
    const steel = stackOf("steel-low-carbon", ["alkyd", "dark"]);
    const strict = photoPath(steel, allow(0.01));
    expect(strict.answer).toBe("no");
    expect(strict.ways).toEqual([expect.objectContaining({ way: "gauge", points: 299 })]);
    expect(strict.ways[0]!.words).toContain("less than 1 % of the patch is covered. That is more than goes on a patch");
    const near = photoPath(steel, allow(0.03));
    expect(near.answer).toBe("perhaps");
    expect(near.ways[0]!.points).toBe(99);
    expect(photoPath(steel, allow(0.05)).answer).toBe("yes");
    expect(photoPath(steel, allow(0.0199)).answer).toBe("no");
  });

  it("perhaps for white paint on bright aluminium, where glare can close the gap", () => {
    const path = photoPath(stackOf("aluminium-1050", ["polyurethane-topcoat", "white"]), allow(0.05));
    expect(path.answer).toBe("perhaps");
    expect(path.reasons[0]).toContain("glare");
    expect(path.ways.map((w) => w.way)).toEqual(["cross-polarised", "raking-light", "gauge"]);
  });

  it("looks at the layer most like the face, and at the layer that must stay instead of the metal", () => {
    const both = stackOf("steel-low-carbon", ["alkyd", "dark"], ["zinc-rich-primer", "natural"]);
    expect(photoPath(both, allow(0.05)).answer).toBe("no");
    const kept = stackOf("steel-low-carbon", ["alkyd", "dark"], ["zinc-rich-primer", "natural", true]);
    expect(photoPath(kept, allow(0.05)).answer).toBe("yes");
    expect(photoPath(stackOf("steel-low-carbon"), allow(0.01))).toMatchObject({ answer: "yes", difference: null });
  });
});

describe("gauge readings", () => {
  it("as many as the spread wanted asks for", () => {
    // t(0.95, 11) = 1.796: 10/√12·1.796 = 5.18 µm, t(0.95, 12) = 1.782: 10/√13·1.782 = 4.94 µm
    expect(gaugePoints(10e-6, 5e-6)).toBe(13);
    expect(gaugePoints(10e-6, 5.2e-6)).toBe(12);
    expect(gaugePoints(1e-6, 1e-4)).toBe(2);
    expect(() => gaugePoints(1e-4, 1e-7)).toThrow("needs more than 1000 readings");
  });

  it("none of n with residue bounds the share: 59 for 5 %, 299 for 1 %", () => {
    expect([0.5, 0.05, 0.01].map((p) => cleanPoints(p))).toEqual([5, 59, 299]);
    for (const p of [0.02, 0.1]) {
      expect((1 - p) ** cleanPoints(p)).toBeLessThanOrEqual(0.05);
      expect((1 - p) ** (cleanPoints(p) - 1)).toBeGreaterThan(0.05);
    }
    expect(() => cleanPoints(0)).toThrow("invalid acceptance: 0");
  });

  it("enter with their own uncertainty", () => {
    const none = residueFromPoints(0, 59);
    expect(none.value).toBeCloseTo(0.5 / 60, 12);
    expect(none.uncertainty).toBeGreaterThan(0.01);
    const some = residueFromPoints(6, 20);
    expect(some.value).toBeCloseTo(6.5 / 21, 12);
    const step = 1e-4;
    let variance = 0;
    for (let x = step / 2; x < 1; x += step) {
      const mass = betaIncomplete(6.5, 14.5, x + step / 2) - betaIncomplete(6.5, 14.5, x - step / 2);
      variance += mass * (x - some.value) ** 2;
    }
    expect(some.uncertainty).toBeCloseTo(Math.sqrt(variance), 6);
    expect(() => residueFromPoints(21, 20)).toThrow("invalid points with residue: 21");
  });
});
