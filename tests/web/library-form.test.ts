import { describe, expect, it } from "vitest";
import { createLibrary, layerKind, type LibraryFile, metal, parseLibraryFile, setup } from "#library";
import { changesBetween, plainRule, problemsOf, refusedAt, stepsOf } from "../../src/web/library/draft-problems.ts";
import {
  copyOf,
  draftOf,
  type EntryDraft,
  fileOf,
  fileWithout,
  shortName,
  withEmptyFigure,
  withFigure,
  withHead,
  withId,
  withNumber,
  withPoints,
  withShape,
  withSource,
  withValue,
} from "../../src/web/library/entry-draft.ts";
import { groupsOf } from "../../src/web/library/fields.ts";
import { machineWords } from "../../src/web/library/machine-words.ts";
import { bareNumber, readPoints, readTyped, typedNumber, typedPoints } from "../../src/web/library/panel-numbers.ts";
import { fits } from "../../src/web/library/brief.ts";
import { setUnitSystem } from "../../src/web/show/unit-system.ts";
import { isTree, readAt, type Tree, writeTree } from "../../src/web/library/tree.ts";

const cited = (draft: EntryDraft) => withHead(draft, { citation: "Certificate 4711", note: "One heat." });
const steel = cited(copyOf("metals", metal("steel-low-carbon"), { id: "bridge-steel", name: "Bridge steel" }));
const read = (draft: EntryDraft) => parseLibraryFile(fileOf(draft));
const density = (draft: EntryDraft) => readAt(draft.entry, ["density"]) as Tree;

describe("numbers of a panel", () => {
  it("go to SI and back as they were typed", () => {
    for (const [text, panel, si] of [
      ["1490", "degC", 1763.15],
      ["0,25", "mJ", 0.00025],
      ["12 000", "mm/s", 12],
      ["40", "1/mm", 40_000],
      ["1.3e11", "1/s", 1.3e11],
      ["−5", "mm", -0.005],
      ["12.2", "um/(m*K)", 1.22e-5],
      ["45", "%", 0.45],
    ] as const)
      expect(readTyped(text, panel), text).toBeCloseTo(si, 12);
    expect(typedNumber(1763.15, "degC")).toBe("1490");
    expect(typedNumber(1.22e-5, "um/(m*K)")).toBe("12.2");
    expect(typedNumber(6.1e-10, "m2/s")).toBe("6.1e-10");
    expect(bareNumber(2e-8, "ns")).toBe("20");
  });

  it("that could be meant in two ways, or none, are not guessed", () => {
    for (const text of ["1,500", "", "abc", "12 mm", "1.2.3", "Infinity", "0x1F", "1e999"])
      expect(readTyped(text, "mm"), text).toBeNull();
  });

  it("of a curve are one pair a line", () => {
    const table = { temperature: [293.15, 573.15], value: [53.3, 44] };
    expect(typedPoints(table, "W/(m*K)")).toBe("20  53.3\n300  44");
    expect(readPoints("20  53.3\n\n300; 44", "W/(m*K)")).toEqual([
      [293.15, 53.3],
      [573.15, 44],
    ]);
    expect(readPoints("20 53.3\n300", "W/(m*K)")).toBe("300");
    expect(readPoints("20 53.3 7", "W/(m*K)")).toBe("20 53.3 7");
  });
});

describe("a copy of an entry", () => {
  it.each([
    ["metals", metal("steel-low-carbon")],
    ["layers", layerKind("alkyd")],
    ["layers", layerKind("red-rust")],
    ["setups", setup("pulsed-100")],
    ["setups", setup("continuous-1000")],
  ] as const)("of %s is a file that the library takes, with every figure as it was", (shelf, entry) => {
    const draft = cited(copyOf(shelf, entry, { id: "copy", name: "Copy" }));
    const file = read(draft);
    const library = createLibrary([file]);
    const list = (shelf === "layers" ? library.layerKinds : library[shelf]) as readonly { readonly id: string }[];
    const copy = list.find((e) => e.id === "copy");
    const { source: _s, fromMemory: _f, ...rest } = entry as typeof entry & { source?: string; fromMemory?: boolean };
    expect(copy).toMatchObject({ ...rest, id: "copy", name: "Copy" });
    expect(problemsOf(draft, [])).toEqual({});
  });

  it("reaches every field of the entry: none is left that the form does not show", () => {
    for (const [shelf, entry] of [
      ["metals", metal("steel-low-carbon")],
      ["layers", layerKind("alkyd")],
      ["setups", setup("continuous-1000")],
    ] as const) {
      const shown = new Set(
        groupsOf(shelf, entry as unknown as Tree)
          .flatMap((g) => g.fields)
          .map((f) => f.path[0]),
      );
      const heads = ["id", "source", "fromMemory", "optics", "appearance", "decomposition"];
      expect(Object.keys(entry).filter((key) => !shown.has(key) && !heads.includes(key))).toEqual([]);
    }
  });

  it("of another own entry makes its figures the copy's own, for nobody else may cite that file", () => {
    const own = createLibrary([read(steel)]).metal("bridge-steel");
    const changed = { ...own, density: { ...own.density, source: "own-metals-bridge-steel" } };
    const again = cited(copyOf("metals", changed, { id: "second", name: "Second" }));
    expect(density(again).source).toBeUndefined();
    expect(readAt(again.entry, ["expansion", "source"])).toBe("memory-metals");
    expect(problemsOf(again, [read(steel)])).toEqual({});
  });

  it("in place of ours says so, and replaces it", () => {
    const draft = cited(copyOf("metals", metal("copper"), "in place"));
    const denser = withFigure(draft, ["density"], "high", "kg/m3", "8970");
    const library = createLibrary([fileOf(denser)]);
    expect(library.metal("copper").density.high).toBe(8970);
    expect(library.metals).toHaveLength(createLibrary([]).metals.length);
  });

  it("has a short name from its name", () => {
    expect(shortName("Alloy 5083, our heat")).toBe("alloy-5083-our-heat");
    expect(shortName("Größe Nº 7")).toBe("gro-e-no-7");
    expect(shortName("x".repeat(90))).toHaveLength(60);
    expect(shortName("?")).toBe("");
    expect(withId(steel, "other")).toMatchObject({ fileId: "metals.other", head: { source: "own-metals-other" } });
  });
});

describe("a figure that somebody changes", () => {
  it("is theirs from then on; the others keep their source", () => {
    const changed = withFigure(steel, ["density"], "low", "kg/m3", "7800");
    expect(density(steel)).toMatchObject({ source: "memory-metals", fromMemory: true });
    expect(density(changed)).toEqual({
      value: 7850,
      low: 7800,
      high: 7870,
      distribution: "normal",
      unit: "kg/m³",
      validRange: "near 300 K",
    });
    const kept = createLibrary([fileOf(changed)]).metal("bridge-steel");
    expect(kept.density).toMatchObject({ source: "own-metals-bridge-steel", fromMemory: false });
    expect(kept.expansion).toMatchObject({ source: "memory-metals", fromMemory: true });
    expect(density(withSource(changed, ["density"], "memory-metals")).source).toBe("memory-metals");
    // The same number typed again changes nothing.
    expect(density(withFigure(steel, ["density"], "low", "kg/m3", "7830"))).toEqual(density(steel));
  });

  it("that is fixed moves as one, and gets a spread when an end is typed", () => {
    const n = ["refractiveIndex"];
    expect(readAt(withFigure(steel, n, "value", "", "3").entry, n)).toMatchObject({ value: 3, low: 3, high: 3 });
    const spread = withFigure(steel, n, "high", "", "3.2");
    expect(readAt(spread.entry, n)).toMatchObject({ value: 2.958, high: 3.2, distribution: "normal" });
    expect(readAt(withShape(spread, n, "fixed").entry, n)).toMatchObject({ low: 2.958, high: 2.958 });
  });

  it("as a curve takes other points", () => {
    const curve = withPoints(
      steel,
      ["conductivity"],
      [
        [300, 50],
        [1500, 30],
      ],
    );
    const kept = createLibrary([fileOf(curve)]).metal("bridge-steel").conductivity;
    expect(kept).toMatchObject({ temperature: [300, 1500], value: [50, 30], source: "own-metals-bridge-steel" });
  });
});

describe("what keeps an entry from being saved", () => {
  const at = (draft: EntryDraft, others: readonly LibraryFile[] = []) => problemsOf(draft, others);

  it("is said at its field, in the panel's units", () => {
    expect(at(withFigure(steel, ["density"], "value", "kg/m3", "9000"))).toEqual({
      "density.value": "Must lie from low to high.",
    });
    expect(at(withFigure(steel, ["meltingTemperature"], "low", "degC", "-260"))["meltingTemperature.low"]).toBe(
      "Must be −223 to 19727 °C.",
    );
    expect(at(withNumber(steel, ["oxideGrowth", "fittedFrom"], "degC", "warm"))).toEqual({
      "oxideGrowth.fittedFrom": "“warm” is not a number in °C.",
    });
    expect(at(withEmptyFigure(steel, ["serviceTemperature"], "K", "as measured"))).toEqual({
      "serviceTemperature.value": "A figure is needed here.",
      "serviceTemperature.low": "A figure is needed here.",
      "serviceTemperature.high": "A figure is needed here.",
    });
    expect(at(withHead(steel, { citation: " ", note: "" }))).toEqual({
      "head.citation": expect.stringMatching(/^Say where it comes from/),
      "head.note": "Must not be empty.",
    });
  });

  it("is found among what hangs together, and among the other files", () => {
    const laser = cited(copyOf("setups", setup("pulsed-100"), { id: "hall", name: "Hall" }));
    expect(at(withValue(laser, ["pulses"], []))).toEqual({ pulses: expect.stringMatching(/^Must hold at least one/) });
    expect(at(withNumber(laser, ["frequencyMax"], "kHz", "0.5"))).toEqual({
      frequencyMax: "Must not be below lowest frequency.",
    });
    expect(at(withId(steel, "copper"))).toEqual({ id: expect.stringMatching(/^There is an entry of this short name/) });
    const fume = withValue(cited(copyOf("layers", layerKind("alkyd"), { id: "l", name: "L" })), ["fume"], ["none"]);
    expect(at(fume)).toEqual({ fume: "Unknown fume entry." });
    expect(at(steel, [read(steel)])).toEqual({ id: expect.stringMatching(/short name already/) });
  });

  it("by the server finds its field, and a line without one stays a line", () => {
    const line = "invalid metals[0].density.low: -3 (must be 1 to 30000 kg/m³)";
    expect(refusedAt(steel, line)).toEqual(["density.low", "Must be 1 to 30000 kg/m³."]);
    expect(refusedAt(steel, "invalid metals[4].density.low: -3 (must be above 0)")?.[0]).toBe("");
    expect(refusedAt(steel, "nothing was saved, for this could not be read any more: enquiry a")).toBeNull();
    expect(stepsOf("setups[0].pulses[2].width")).toEqual(["setups", 0, "pulses", 2, "width"]);
    expect(plainRule("must be above 0", undefined)).toBe("Must be above 0.");
    const melting = { kind: "figure", path: ["meltingTemperature"], si: "K", panel: "degC" } as const;
    // Fields keep their unit, whatever the pages show: so does what is said of them.
    setUnitSystem("us");
    expect(plainRule("must be 273.15 to 373.15 K", melting)).toContain("0 to 100 °C");
    setUnitSystem("metric");
  });
});

describe("an own file with more than one entry", () => {
  const two = {
    ...read(steel),
    setups: [setup("pulsed-100")].map(({ source: _s, fromMemory: _f, ...s }) => ({ ...s, id: "hall" })),
  };
  const file = parseLibraryFile({ ...two, metals: [...(two.metals ?? []), { ...two.metals?.[0], id: "second" }] });

  it("is changed in one and left in the others", () => {
    const draft = draftOf("metals", "works", file, "second")!;
    const next = parseLibraryFile(fileOf(withFigure(draft, ["density"], "high", "kg/m3", "7900")));
    expect(next.metals?.[1]?.density.high).toBe(7900);
    expect(next).toEqual({ ...file, metals: [file.metals?.[0], next.metals?.[1]] });
    expect(changesBetween(draftOf("metals", "works", next, "second")!, draft.entry)).toEqual(["Density"]);
    expect(parseLibraryFile(fileWithout(draft)).metals?.map((m) => m.id)).toEqual(["bridge-steel"]);
    expect(draftOf("metals", "works", file, "none")).toBeNull();
  });
});

describe("places in an entry", () => {
  it("are written without touching what lies beside them, and taken away", () => {
    const tree = { a: { b: [1, 2, 3] }, c: { d: 1 } };
    const next = writeTree(tree, ["a", "b", 1], 9);
    expect(next).toEqual({ a: { b: [1, 9, 3] }, c: { d: 1 } });
    expect(next.c).toBe(tree.c);
    expect(writeTree(tree, ["a", "b", 1], undefined)).toEqual({ a: { b: [1, 3] }, c: { d: 1 } });
    expect(writeTree(tree, ["c", "d"], undefined)).toEqual({ a: tree.a, c: {} });
    expect(readAt(tree, ["a", "toString"])).toBeUndefined();
    expect(isTree([])).toBe(false);
  });
});

describe("a set-up in words", () => {
  it("says the limits that hang together", () => {
    const lines = machineWords(setup("pulsed-100"));
    expect(lines[0]).toBe("20 ns pulses: up to 0.25 mJ each, held up to 400 kHz; 1000 kHz at most.");
    expect(lines.join(" ")).toMatch(
      /Lens 100 mm: spot 32\.5 µm in focus, field 68 mm square, up to 361 J\/cm² at the peak/,
    );
    expect(machineWords(setup("continuous-1000")).join(" ")).toMatch(
      /puts 0\.0667 J\/mm on a line at full speed and 200 J\/mm/,
    );
    for (const id of ["pulsed-50", "pulsed-500", "continuous-3000"])
      expect(machineWords(setup(id)).join(" ")).not.toMatch(/NaN|undefined|Infinity|–/);
  });

  it("is found by any words of its line", () => {
    expect(fits("nanosecond pulsed 100 w, 1064 nm", "1064 puls")).toBe(true);
    expect(fits("nanosecond pulsed 100 w, 1064 nm", "1070")).toBe(false);
  });
});
