import { beamState, defaultSetting } from "#beam";
import { layerKind, layerKinds, metal, metals, setup, setups } from "#library";
import { cautionsFor, fumeFlags } from "#safety";
import { isSource } from "#sources";
import { describe, expect, it } from "vitest";

const alkyd = layerKinds.find((kind) => kind.fume.includes("alkyd"))!;
const oil = layerKinds.find((kind) => kind.fume.includes("rubber-oil"))!;

describe("fume flags", () => {
  it("asks for a test where old examples of the layer hold lead, stops where it is present, is quiet where it is absent", () => {
    const action = (lead: "yes" | "no" | "unknown") =>
      fumeFlags([alkyd], null, { lead }).find((f) => f.id === "lead")?.action;
    expect([action("unknown"), action("yes"), action("no")]).toEqual(["test first", "stop", undefined]);
    expect(fumeFlags([oil], null, {}).some((f) => f.id === "lead")).toBe(false);
    expect(fumeFlags([oil], null, { cadmium: "yes" })[0]).toMatchObject({ id: "cadmium", action: "stop" });
  });

  it("puts the strongest action first and adds what the metal gives off", () => {
    const aluminium = metals.find((m) => m.family === "aluminium")!;
    const flags = fumeFlags([oil, alkyd], aluminium, { lead: "yes" });
    expect(flags[0]!.action).toBe("stop");
    expect(flags.map((f) => f.id)).toEqual(expect.arrayContaining(["lead", "rubber-oil", "alkyd", "light-metal-dust"]));
    expect(flags[0]!.limits).toContain("lead: 0.03 mg/m³, 8 h mean, EU");
  });

  it("still flags a substance that the list has no entry for", () => {
    expect(fumeFlags([], null, { asbestos: "yes" }, [])).toMatchObject([{ id: "asbestos", action: "stop" }]);
  });

  it("asks for a test of a layer that the list knows nothing of, and of none that it knows", () => {
    const strange = { ...alkyd, id: "own-coat", name: "Own coat", fume: ["nowhere"], mayHold: [] };
    const flags = fumeFlags([{ ...strange, fume: [] }, oil], null, {});
    expect(flags[0]).toMatchObject({ id: "unknown-own-coat", action: "test first", name: "Own coat" });
    expect(flags[0]!.note).toBe("Unknown: treat as hazardous, test first. The fume list says nothing of this layer.");
    expect(fumeFlags([strange], null, {})[0]!.note).toContain("no entry: nowhere");
    for (const kind of layerKinds)
      expect(fumeFlags([kind], null, {}).some((f) => f.id.startsWith("unknown"))).toBe(false);
  });
});

describe("cautions", () => {
  const machine = setup("pulsed-200");
  const beam = beamState(machine, defaultSetting(machine));
  const base = { setup: machine, beam, layers: [alkyd], metal: null };

  it("always names class 4, local law and the laser safety officer, eyewear by wavelength, fume and fire", () => {
    for (const one of setups) {
      const lines = cautionsFor({ setup: one, beam: null, layers: [], metal: null });
      const text = lines.join("\n");
      for (const word of [
        "Class 4",
        "Local law",
        "laser safety officer",
        `${Math.round(one.wavelength * 1e9)} nm`,
        "Extract the fume",
        "fire extinguisher",
      ])
        expect(text).toContain(word);
      expect(new Set(lines).size).toBe(lines.length);
    }
  });

  it("never calls anything safe", () => {
    for (const kind of layerKinds)
      for (const m of metals)
        expect(cautionsFor({ ...base, layers: [kind], metal: m }).join(" ")).not.toMatch(
          /\bsafe\b|\bsafely\b|\bharmless\b/i,
        );
  });

  it("puts lead and chromate first", () => {
    expect(cautionsFor({ ...base, lead: "yes" })[0]).toMatch(/^Lead is said to be present: stop/);
    expect(cautionsFor({ ...base, lead: "unknown" })[0]).toMatch(/^This layer may hold lead: test it/);
    expect(cautionsFor({ ...base, lead: "no", chromate: "no", cadmium: "no", asbestos: "no" })[0]).toMatch(/^Class 4/);
  });

  it("adds what belongs to the metal, the film and the power", () => {
    const aluminium = metals.find((m) => m.family === "aluminium")!;
    const text = (change: object) => cautionsFor({ ...base, ...change }).join("\n");
    expect(text({ metal: aluminium })).toContain("aluminium dust can burn and explode");
    expect(text({ metal: metal("steel-low-carbon") })).not.toContain("can burn and explode");
    expect(text({ layers: [oil] })).toContain("catch fire");
    expect(text({})).toContain("EN 12254");
    expect(text({ setup: setup("pulsed-50"), beam: null })).not.toContain("EN 12254");
  });
});

it("cites sources that the bibliography knows", () => {
  for (const id of [
    "directive-2006-25-ec",
    "iec-60825-1",
    "iec-60825-14",
    "en-207",
    "iso-19818-1",
    "dguv-203-042",
    "dguv-203-093",
  ])
    expect(isSource(id)).toBe(true);
  expect(layerKind(alkyd.id)).toBe(alkyd);
});
