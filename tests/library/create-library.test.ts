import { describe, expect, it } from "vitest";
import {
  createLibrary,
  layerKind,
  type LibraryFile,
  libraryFileJsonSchema,
  metal,
  metals,
  parseLibraryFile,
  setup,
  unknownLayerMixture,
} from "#library";
import { InvalidInput } from "#units";
import aluminium from "../../src/library/data/aluminium-alloys.json" with { type: "json" };
import contaminants from "../../src/library/data/contaminants.json" with { type: "json" };
import continuous from "../../src/library/data/continuous-setups.json" with { type: "json" };
import fume from "../../src/library/data/fume.json" with { type: "json" };
import metallic from "../../src/library/data/metallic-layers.json" with { type: "json" };
import coatings from "../../src/library/data/organic-coatings.json" with { type: "json" };
import otherMetals from "../../src/library/data/other-metals.json" with { type: "json" };
import oxides from "../../src/library/data/oxides.json" with { type: "json" };
import pulsed from "../../src/library/data/pulsed-setups.json" with { type: "json" };
import steels from "../../src/library/data/steels.json" with { type: "json" };

// biome-ignore lint/suspicious/noExplicitAny: files are bent freely here so that they are refused
type Loose = Record<string, any>;
const clone = <T>(x: T): Loose => structuredClone(x) as Loose;
const head = { source: "yard-lab-2026", citation: "Invented yard laboratory, 2026", fromMemory: false, note: "test" };

/** A user file with one metal, changed by `change`. */
function withMetal(change: (m: Loose) => void): Loose {
  const m = clone(aluminium.metals[1]);
  m.id = "aluminium-yard";
  change(m);
  return { ...head, metals: [m] };
}
const withLayer = (change: (l: Loose) => void): Loose => {
  const l = clone(oxides.layers[0]);
  l.id = "yard-rust";
  change(l);
  return { ...head, layers: [l] };
};
const withSetup = (change: (s: Loose) => void): Loose => {
  const s = clone(pulsed.setups[1]);
  s.id = "pulsed-yard";
  change(s);
  return { ...head, setups: [s] };
};

describe("own data files", () => {
  it.each([aluminium, steels, otherMetals, coatings, oxides, metallic, contaminants, pulsed, continuous, fume])(
    "pass the validator of user files (%#)",
    (file) => {
      expect(() => parseLibraryFile(file)).not.toThrow();
      expect(file.note.length).toBeGreaterThan(20);
    },
  );
});

describe("createLibrary", () => {
  it("without user files is the library itself", () => {
    const library = createLibrary([]);
    expect(library.metals).toEqual(metals);
    expect(library.metal("copper")).toBe(metal("copper"));
    expect(library.userSources).toEqual([]);
  });

  it("adds user entries with the source of their file", () => {
    const library = createLibrary([
      withMetal((m) => (m.density.value = 2655)),
      withLayer(() => {}),
      withSetup(() => {}),
    ]);
    expect(library.metal("aluminium-yard").density).toMatchObject({
      value: 2655,
      source: "yard-lab-2026",
      fromMemory: false,
    });
    expect(library.metal("aluminium-yard").refractiveIndex!.source).toBe("rakic-1995");
    expect(library.layerKind("yard-rust").name).toBe("Red rust");
    expect(library.setup("pulsed-yard").source).toBe("yard-lab-2026");
    expect(library.metals.length).toBe(metals.length + 1);
    expect(library.userSources.map((s) => s.citation)).toEqual(["Invented yard laboratory, 2026"]);
    expect(() => metal("aluminium-yard")).toThrow(InvalidInput);
  });

  it("replaces ours only where the entry says so", () => {
    const file = withMetal((m) => {
      m.id = "aluminium-5083";
      m.replaces = true;
      m.density.value = 2650;
    });
    const library = createLibrary([file]);
    expect(library.metal("aluminium-5083").density.value).toBe(2650);
    expect(library.metal("aluminium-5083")).not.toHaveProperty("replaces");
    expect(library.metals.map((m) => m.id)).toEqual(metals.map((m) => m.id));
    expect(metal("aluminium-5083").density.value).toBe(2660);
  });

  const refusals: [string, unknown, string][] = [
    [
      "a slip of units",
      withLayer((l) => (l.usualThickness.high = 200)),
      "layers[0].usualThickness.high: 200 (must be 1e-9 to 0.1 m)",
    ],
    [
      "an absurd table",
      withMetal((m) => (m.heatCapacity.value[0] = 0.9)),
      "metals[0].heatCapacity.value[0]: 0.9 (must be 10 to 100000 J/(kg·K))",
    ],
    [
      "an entry of ours",
      withMetal((m) => (m.id = "copper")),
      'metals[0].id: copper (already in the library: choose another id or say "replaces": true)',
    ],
    [
      "a replacement of nothing",
      withMetal((m) => (m.replaces = true)),
      "metals[0].id: aluminium-yard (replaces an entry that is not there)",
    ],
    ["no object", 7, "library file: 7 (must be of type object)"],
    ["an empty object", {}, "source: missing (must be of type string)"],
    ["a missing property", withMetal((m) => delete m.density), "metals[0].density: missing (must be of type object)"],
    ["a wrong unit", withMetal((m) => (m.density.unit = "g/cm3")), "metals[0].density.unit: g/cm3 (must be kg/m³)"],
    ["a negative figure", withMetal((m) => (m.density.low = -1)), "metals[0].density.low: -1 (must be above 0)"],
    [
      "text for a number",
      withMetal((m) => (m.density.value = "2660")),
      "metals[0].density.value: 2660 (must be of type number)",
    ],
    [
      "a value outside its range",
      withMetal((m) => (m.density.value = 9000)),
      "metals[0].density.value: 9000 (must lie from low to high)",
    ],
    ["an unknown field", withMetal((m) => (m.colour = "grey")), "metals[0]: an object (unknown field: colour)"],
    [
      "an unknown distribution",
      withMetal((m) => (m.density.distribution = "triangle")),
      "metals[0].density.distribution: triangle (one of: normal, lognormal, uniform, fixed)",
    ],
    [
      "a share above 1",
      withMetal((m) => (m.absorptance.high = 1.2)),
      "metals[0].absorptance.high: 1.2 (must be 0 to 1)",
    ],
    [
      "a falling table",
      withMetal((m) => (m.conductivity.temperature[1] = 200)),
      "metals[0].conductivity.temperature: an object (must rise from one to the next)",
    ],
    [
      "an uneven table",
      withMetal((m) => m.conductivity.value.pop()),
      "metals[0].conductivity.value: an object (must hold as many numbers as temperature)",
    ],
    [
      "boiling below melting",
      withMetal((m) => Object.assign(m.boilingTemperature, { value: 700, low: 690 })),
      "metals[0].boilingTemperature.low: 690 (must be above the highest melting temperature: metals that do not melt before they boil are out of scope)",
    ],
    [
      "a source nobody knows",
      { ...withMetal(() => {}), citation: undefined },
      "source: yard-lab-2026 (unknown source: add its citation)",
    ],
    [
      "a figure's unknown source",
      withMetal((m) => (m.density.source = "hearsay")),
      "metals[0].density.source: hearsay (unknown source)",
    ],
    [
      "a layer without a way off",
      withLayer((l) => (l.ablationHeat = null)),
      "layers[0].decomposition: missing (must be given, or else ablationTemperature and ablationHeat)",
    ],
    [
      "a layer without optics",
      withLayer((l) => (l.optics = {})),
      "layers[0].optics: an object (must hold at least one colour class)",
    ],
    ["a layer with unknown fume", withLayer((l) => (l.fume = ["smoke"])), "layers[0].fume: smoke (unknown fume entry)"],
    [
      "a pulsed set-up without pulses",
      withSetup((s) => (s.pulses = [])),
      "setups[0].pulses: an object (must hold at least one pulse width for a pulsed source and none for a continuous one)",
    ],
    [
      "a set-up of another wavelength",
      withSetup((s) => (s.wavelength = 532e-9)),
      "setups[0].wavelength: 5.32e-7 (must be 7e-7 to 1.4e-6 m: the library's optics are near infrared)",
    ],
    [
      "one id twice",
      { ...head, metals: [clone(aluminium.metals[0]), clone(aluminium.metals[0])] },
      "metals[1].id: aluminium-1050 (must not stand twice in one file)",
    ],
  ];

  it.each(refusals)("refuses %s in one line", (_, file, line) => {
    let thrown: unknown;
    try {
      createLibrary([withSetup(() => {}), file]);
    } catch (error) {
      thrown = error;
    }
    expect(thrown).toBeInstanceOf(InvalidInput);
    expect((thrown as InvalidInput).message).toBe(`invalid ${line}`);
    expect((thrown as InvalidInput).where).toBe("library file 2");
  });

  it("publishes a JSON Schema that names the units", () => {
    const text = JSON.stringify(libraryFileJsonSchema());
    expect(text).toContain("W/(m·K)");
    expect(text).toContain('"additionalProperties":false');
    const file: LibraryFile = parseLibraryFile(withMetal(() => {}));
    expect(file.metals!.length).toBe(1);
  });
});

describe("look-ups", () => {
  it("name what there is when the id is unknown", () => {
    expect(() => metal("unobtainium")).toThrow(/^invalid metal: unobtainium \(one of: aluminium-1050, /);
    expect(() => layerKind("jam")).toThrow(/^invalid layer kind: jam \(one of: alkyd, /);
    expect(() => setup("pulsed-51")).toThrow(/^invalid laser: pulsed-51 \(one of: pulsed-50, /);
    expect(() => createLibrary([]).fume("smoke")).toThrow(/^invalid fume entry: smoke \(one of: alkyd, /);
  });
});

describe("unknownLayerMixture", () => {
  it.each(["paint", "rust", "any"] as const)("%s: shares add up to 1, each with a usual thickness", (family) => {
    const guesses = unknownLayerMixture(family);
    expect(guesses.reduce((sum, g) => sum + g.weight, 0)).toBeCloseTo(1, 12);
    for (const g of guesses) {
      expect(g.thickness).toEqual(g.kind.usualThickness);
      expect(g.kind.optics[g.colour]).toBeDefined();
      expect(g.assumption).toMatch(/layer taken as .*\(share \d+ %\)/);
    }
  });
  it("refuses another family", () => {
    expect(() => unknownLayerMixture("stone" as "any")).toThrow(
      "invalid layer family: stone (one of: paint, rust, any)",
    );
  });
});
