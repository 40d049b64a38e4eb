import { describe, expect, it } from "vitest";
import { parseEnquiry, parseEnquiryFile } from "#contract";
import { linesOf } from "./lines.ts";
import { shelves } from "./shelves.ts";

const known = { kind: "epoxy-primer", colour: "mid", thickness_um: 40 };
const part = { material: "aluminium-5083", thickness_mm: 5, area_m2: 2, layers: [known] };
const withLayer = (layer: object) => ({ parts: [{ ...part, layers: [layer] }] });
const refused = (json: unknown) => linesOf(() => parseEnquiry(json, shelves));

describe("an enquiry in SI", () => {
  it("takes two lines and states everything it assumed", () => {
    const enquiry = parseEnquiry(
      { parts: [{ material: "aluminium-5083", layers: [{ kind: "clear-lacquer" }] }] },
      shelves,
    );
    const [only] = enquiry.parts;
    expect(only?.unknowns).toEqual(["thickness (layer 1)", "metal thickness", "area"]);
    expect(only?.mixture.map((m) => m.stack.metalThickness)).toEqual([0.0015, 0.004, 0.01]);
    expect(only?.mixture.map((m) => m.weight)).toEqual([0.25, 0.5, 0.25]);
    expect(only?.acceptance).toEqual({
      residueMax: 0.05,
      metalConditionMax: 1,
      metalTemperatureMax: null,
      tests: [],
      confidence: 0.8,
    });
    expect(only?.assumptions?.join("\n")).toMatch(/area not stated[\s\S]*thickness unknown[\s\S]*metal thickness not/);
  });

  it("turns file units into SI", () => {
    const enquiry = parseEnquiry(
      {
        site: { laserPowerMax_W: "1.5 kW", electricalPowerMax_VA: 7000 },
        parts: [
          {
            ...part,
            rateWanted_m2_per_h: 3.6,
            faces: [{ kind: "concave", radius_mm: 80 }],
            acceptance: { residueMax_percent: 2, metalTemperatureMax_degC: 150, confidence_percent: 95 },
          },
        ],
      },
      shelves,
    );
    const [only] = enquiry.parts;
    expect(enquiry.site.laserPowerMax).toBe(1500);
    expect(enquiry.site.electricalPowerMax).toBe(7000);
    expect(only?.rateWanted).toBeCloseTo(1e-3, 15);
    expect(only?.faces[0]?.radius).toBe(0.08);
    expect(only?.acceptance.residueMax).toBe(0.02);
    expect(only?.acceptance.metalTemperatureMax).toBeCloseTo(423.15, 10);
    expect(only?.acceptance.confidence).toBe(0.95);
    expect(only?.mixture).toHaveLength(1);
    expect(only?.mixture[0]?.assumption).toBe("");
    const thickness = only?.mixture[0]?.stack.layers[0]?.thickness;
    expect(thickness?.value).toBe(40e-6);
    expect(thickness?.high).toBeCloseTo(46e-6, 12);
    expect(thickness?.low).toBeCloseTo(40e-6 / 1.15, 12);
  });

  it("reads a thickness with its own unit, micro signs included", () => {
    for (const text of ["40 um", "40 µm", "0.04 mm", "40"]) {
      const file = parseEnquiryFile(withLayer({ ...known, thickness_um: text }));
      expect(file.parts[0]?.layers[0]?.thickness_um).toBe(40);
    }
  });

  it("mixes over kinds and colours when they are unknown, shares adding up to 1", () => {
    const { mixture, unknowns, assumptions } = parseEnquiry(withLayer({ kind: "unknown", thickness_um: 40 }), shelves)
      .parts[0]!;
    // the library's guess for paint: alkyd 0.35 to epoxy primer 0.2 of what is on this shelf, three colours each
    expect(mixture).toHaveLength(6);
    expect(mixture.reduce((sum, m) => sum + m.weight, 0)).toBeCloseTo(1, 12);
    expect(mixture.find((m) => m.stack.layers[0]?.kind.id === "alkyd")?.weight).toBeCloseTo(0.35 / 0.55 / 3, 12);
    expect(mixture[0]?.assumption).toBe("layer 1 taken as alkyd, taken as white in colour");
    expect(unknowns).toEqual(["layer kind (layer 1)", "colour (layer 1)", "lead content", "chromate content"]);
    expect(assumptions?.[0]).toBe("layer 1: kind unknown, taken as one of the coating kinds alkyd, epoxy primer");
  });

  it("takes an unknown clear coat as what comes clear, and offers no rust on aluminium", () => {
    const clear = parseEnquiry(withLayer({ kind: "unknown", colour: "clear" }), shelves).parts[0]!.mixture;
    expect(clear.map((m) => m.stack.layers[0]?.kind.id)).toEqual(["clear-lacquer"]);
    expect(refused(withLayer({ kind: "unknown", group: "oxide" }))[0]).toMatch(/no oxide of the library fits/);
    const steel = { parts: [{ ...part, material: "steel-low-carbon", layers: [{ group: "oxide" }] }] };
    expect(parseEnquiry(steel, shelves).parts[0]!.mixture[0]?.stack.layers[0]?.kind.id).toBe("red-rust");
  });

  it("widens the spread of a usual thickness", () => {
    const layer = parseEnquiry(withLayer({ kind: "epoxy-primer", colour: "mid" }), shelves).parts[0]!.mixture[0]!.stack
      .layers[0]!;
    // usual 50 µm with 5 and 95 % points at half and double; widened by 1.5 in the logarithm: a factor 2^1.5
    expect(layer.thickness.value).toBe(50e-6);
    expect(layer.thickness.high).toBeCloseTo(50e-6 * 2 ** 1.5, 12);
    expect(layer.thickness.low).toBeCloseTo(50e-6 / 2 ** 1.5, 12);
  });

  it("keeps the number of stacks bounded and every axis in its shares when much is unknown", () => {
    const layers = [{}, {}, {}];
    const { mixture } = parseEnquiry({ parts: [{ layers }] }, shelves).parts[0]!;
    expect(mixture.length).toBeLessThanOrEqual(61);
    expect(mixture.length).toBeGreaterThan(50);
    expect(mixture.reduce((sum, m) => sum + m.weight, 0)).toBeCloseTo(1, 12);
    for (const position of [0, 1, 2]) {
      const alkyd = mixture.filter((m) => m.stack.layers[position]?.kind.id === "alkyd");
      expect(Math.abs(alkyd.reduce((sum, m) => sum + m.weight, 0) - 0.35 / 0.55)).toBeLessThan(1 / 61);
    }
    expect(mixture.some((m) => m.stack.metal.id === "zinc")).toBe(false);
    const steel = mixture.filter((m) => m.stack.metal.family === "steel").reduce((sum, m) => sum + m.weight, 0);
    expect(Math.abs(steel - 1 / 2)).toBeLessThan(1 / 61);
  });

  it("accepts what is no metal, for triage to decline", () => {
    const declined = parseEnquiry({ parts: [{ material: "stone", area_m2: 3 }] }, shelves).parts[0]!;
    expect(declined.material).toBe("stone");
    expect(declined.mixture).toEqual([]);
  });

  it("gives the usual standard to a test that names none", () => {
    const tests = [
      { kind: "pull-off", limit: "at least 5 MPa" },
      { kind: "salts", method: "own method" },
    ];
    const enquiry = parseEnquiry({ parts: [{ ...part, acceptance: { tests } }] }, shelves);
    expect(enquiry.parts[0]?.acceptance.tests).toEqual([
      { kind: "pull-off", method: "ISO 4624", limit: "at least 5 MPa", value: null, passed: null },
      { kind: "salts", method: "own method", limit: "", value: null, passed: null },
    ]);
  });

  it("is the same after a round through its own file", () => {
    const once = parseEnquiryFile({ parts: [part, { ...part, id: "b", thickness_mm: "unknown" }] });
    expect(parseEnquiryFile(JSON.parse(JSON.stringify(once)))).toEqual(JSON.parse(JSON.stringify(once)));
  });
});

describe("refusals of an enquiry", () => {
  it("names field, value, unit and rule in the house form", () => {
    const two = { parts: [{ ...part, layers: [known, { ...known, thickness_um: -3 }] }] };
    expect(refused(two)).toEqual(["invalid parts[0].layers[1].thickness_um: -3 um (must be greater than 0)"]);
  });

  it.each([
    [
      withLayer({ ...known, thickness_um: "35 s" }),
      /^invalid parts\[0\]\.layers\[0\]\.thickness_um: 35 s \(needs a length/,
    ],
    [withLayer({ ...known, thickness_um: "3,5 um" }), /thickness_um: 3,5 um \(write a decimal point/],
    [withLayer({ ...known, thickness_um: 20_001 }), /thickness_um: 20001 um \(must be at most 20000 um\)/],
    [withLayer({ ...known, thickness_um: 0 }), /thickness_um: 0 um \(must be greater than 0\)/],
    [withLayer({ ...known, thickness_um: true }), /thickness_um: true \(must be a number in um/],
    [withLayer({ ...known, thickness_um: null }), /thickness_um: .* \(must be a number in um/],
    [
      withLayer({ ...known, kind: "unobtainium" }),
      /layers\[0\]\.kind: unobtainium \(unknown layer kind; known: alkyd, /,
    ],
    [withLayer({ ...known, colour: "clear" }), /colour: clear \(epoxy-primer is known as white, mid, dark\)/],
    [withLayer({ ...known, thicknes_um: 3 }), /thicknes_um: 3 um \(unknown field; known: kind, /],
    [withLayer({ ...known, mustStay: true }), /layers: a list of 1 \(at least one layer must come off\)/],
    [
      { parts: [{ ...part, layers: [{ ...known, mustStay: true }, known] }] },
      /layers\[0\]\.mustStay: true \(cannot be/,
    ],
    [{ parts: [{ ...part, layers: [] }] }, /layers: a list of 0 \(needs at least one layer\)/],
    [{ parts: [{ ...part, area_m2: 1_000_001 }] }, /area_m2: 1000001 m2 \(must be at most 1000000 m2\)/],
    [{ parts: [{ ...part, thickness_mm: 1001 }] }, /thickness_mm: 1001 mm \(must be at most 1000 mm\)/],
    [{ parts: [{ ...part, material: "vibranium" }] }, /material: vibranium \(unknown material; known: aluminium-5083/],
    [{ parts: [{ ...part, count: 1.5 }] }, /count: 1.5 \(must be a whole number\)/],
    [{ parts: [{ ...part, faces: [{ kind: "hole" }] }] }, /faces\[0\]\.radius_mm: .* \(a hole face needs its radius\)/],
    [{ parts: [{ ...part, lead: "maybe" }] }, /lead: maybe \(must be one of: yes, no, unknown\)/],
    [{ parts: [{ ...part, acceptance: { metalConditionMax: 5 } }] }, /metalConditionMax: 5 \(must be 0 unchanged/],
    [{ parts: [{ ...part, acceptance: { residueMax_percent: 101 } }] }, /residueMax_percent: 101 % \(must be at most/],
    [{ parts: [part, part].map((p) => ({ ...p, id: "same" })) }, /parts\[1\]\.id: same \(must differ/],
    [{ parts: [] }, /parts: a list of 0 \(needs at least 1 of them\)/],
    [{}, /invalid parts: missing \(must be a list\)/],
    [null, /invalid enquiry: null \(must be an object\)/],
    ["x", /invalid enquiry: x \(must be an object\)/],
  ])("refuses %j", (json, line) => {
    expect(refused(json)[0]).toMatch(line);
  });

  it("lists every problem, one line each", () => {
    const bad = {
      parts: [
        { ...part, area_m2: -1, count: 0 },
        { ...part, thickness_mm: "x" },
      ],
      extra: 1,
    };
    const lines = refused(bad);
    expect(lines).toHaveLength(4);
    for (const line of lines) expect(line).toMatch(/^invalid [^\n]+ \([^\n]+\)$/);
    const unknownIds = {
      parts: [
        { ...part, material: "a" },
        { ...part, layers: [{ kind: "b" }] },
      ],
    };
    expect(refused(unknownIds)).toHaveLength(2);
  });
});
