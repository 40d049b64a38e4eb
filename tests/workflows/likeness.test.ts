import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseEnquiry } from "#contract";
import { createLibrary } from "#library";
import { InvalidInput } from "#units";
import { type LikeCase, queriesOfPart, queryWords, readLikeText, searchLike } from "#workflows";
import { coatLikeness, coatShare, layerLikeness } from "../../src/workflows/likeness-coat.ts";
import { metalLikeness, setupLikeness } from "../../src/workflows/likeness-setup.ts";

const library = createLibrary([]);
const partOf = (material: string, ...layers: readonly object[]) =>
  parseEnquiry({ parts: [{ id: "p", material, layers }] }, library).parts[0]!;
const white = { kind: "polyurethane-topcoat", colour: "white", thickness_um: 60 };
const primer = { kind: "epoxy-primer", colour: "mid", thickness_um: 30 };
const rust = { kind: "red-rust", thickness_um: 40 };
const caseOf = (material: string, laser: string | null, ...layers: readonly object[]) => ({
  name: [material, laser, ...layers.map((l) => (l as { kind: string }).kind)].join(" "),
  mixture: partOf(material, ...layers).mixture,
  setup: laser === null ? null : library.setup(laser),
});
const layersOf = (...layers: readonly object[]) => partOf("steel-low-carbon", ...layers).mixture[0]!.stack;
const wishesOf = (...layers: readonly object[]) =>
  queriesOfPart(partOf("steel-low-carbon", ...layers), null)[0]!.query.layers!;
const alone = (text: string) => [{ query: readLikeText(text, library).query, weight: 1 }];
const one = (text: string, c: LikeCase) => searchLike(alone(text), [c])[0]!;

describe("likeness of coats", () => {
  it("falls with colour, kind and thickness", () => {
    const wish = wishesOf(white)[0]!;
    const to = (layer: object) => layerLikeness(wish, layersOf(layer).layers[0]!);
    expect(to(white)).toBeCloseTo(1, 12);
    expect(to({ ...white, colour: "dark" })).toBeCloseTo(0.7, 12);
    expect(to({ ...white, kind: "alkyd" })).toBeCloseTo(0.3, 12);
    expect(to({ ...rust, thickness_um: 60 })).toBe(0);
    // twice as thick: one standard deviation in ln
    expect(to({ ...white, thickness_um: 120 })).toBeCloseTo(0.7 + 0.3 * Math.exp(-0.5), 12);
    expect(to({ ...white, thickness_um: 30 })).toBeCloseTo(0.7 + 0.3 * Math.exp(-0.5), 12);
  });

  it("comes to the same figure with and without its pairs", () => {
    const layer = fc.constantFrom(white, primer, rust, { ...white, colour: "dark" }, { ...primer, thickness_um: 90 });
    const coat = fc.array(layer, { minLength: 1, maxLength: 4 });
    fc.assert(
      fc.property(coat, coat, (wished, burned) => {
        const wishes = wishesOf(...wished);
        expect(coatShare(wishes, layersOf(...burned))).toBeCloseTo(
          coatLikeness(wishes, layersOf(...burned)).likeness,
          12,
        );
      }),
      { numRuns: 60 },
    );
  });

  it("pairs layers in their order and says what has no partner", () => {
    const both = coatLikeness(wishesOf(white, primer), layersOf(white, primer));
    expect(both.likeness).toBeCloseTo(1, 12);
    expect(coatLikeness(wishesOf(white), layersOf(white, primer)).likeness).toBeCloseTo(2 / 3, 12);
    expect(coatLikeness(wishesOf(primer), layersOf(white, primer)).likeness).toBeCloseTo(2 / 3, 12);
    // The wrong way round only one of two can be paired in order.
    const turned = coatLikeness(wishesOf(primer, white), layersOf(white, primer));
    expect(turned.likeness).toBeCloseTo(0.5, 12);
    expect(turned.pairs.filter((p) => p.wish && p.layer)).toHaveLength(1);
    expect(turned.pairs).toHaveLength(3);
    const bare = { ...layersOf(white), layers: [] };
    expect(coatLikeness([], bare).likeness).toBe(1);
    expect([coatShare([], bare), coatShare([], layersOf(white)), coatShare(wishesOf(white), bare)]).toEqual([1, 0, 0]);
    expect(coatLikeness([], layersOf(white)).likeness).toBe(0);
    expect(coatLikeness(wishesOf(white), bare).likeness).toBe(0);
  });
});

describe("likeness of metals and set-ups", () => {
  it("knows id, family and the rest", () => {
    const [a, b, c] = ["aluminium-5083", "aluminium-6061", "copper"].map(library.metal);
    expect([metalLikeness(a!, a!), metalLikeness(a!, b!), metalLikeness(a!, c!)]).toEqual([1, 0.7, 0.2]);
  });

  it("is 1 with itself, the same both ways, and less the farther apart two set-ups are", () => {
    const like = (a: string, b: string) => setupLikeness(library.setup(a), library.setup(b));
    for (const a of library.setups) {
      expect(like(a.id, a.id)).toBe(1);
      for (const b of library.setups) {
        expect(like(a.id, b.id)).toBeCloseTo(like(b.id, a.id), 12);
        expect(like(a.id, b.id)).toBeGreaterThan(0);
        if (a.id !== b.id) expect(like(a.id, b.id)).toBeLessThan(1);
      }
    }
    expect(like("pulsed-100", "pulsed-50")).toBeGreaterThan(like("pulsed-100", "pulsed-500"));
    expect(like("pulsed-100", "pulsed-500")).toBeGreaterThan(like("pulsed-100", "continuous-1000"));
    // 0.3·(exp(−½(ln(1064/1075)/0.2)²) + 0 + spots + powers)/4, by hand: spots 267/333… µm and 500/1500 W
    const spots = Math.exp(-0.5 * (Math.log(0.0003333 / 0.0002667) / Math.LN2) ** 2);
    const near = Math.exp(-0.5 * (Math.log(0.0002117 / 0.0002667) / Math.LN2) ** 2);
    const far = Math.exp(-0.5 * (Math.log(0.0003333 / 0.0004267) / Math.LN2) ** 2);
    const wave = Math.exp(-0.5 * (Math.log(1064 / 1075) / 0.2) ** 2);
    const power = Math.exp(-0.5 * (Math.log(3) / Math.LN2) ** 2);
    expect(like("pulsed-500", "continuous-1500")).toBeCloseTo(
      0.3 * ((wave + Math.max(spots, near, far) + power) / 4),
      9,
    );
  });

  it("compares pulse widths by what their ranges share, in ln", () => {
    const a = library.setup("pulsed-100");
    const only = (low: number, high: number) => ({
      ...a,
      id: "other",
      pulses: [low, high].map((width) => ({ ...a.pulses[0]!, width })),
    });
    // 20 to 200 ns against 20 to 63.2 ns: half of the range in ln; everything else is the same
    expect(setupLikeness(a, only(20e-9, 20e-9 * Math.sqrt(10)))).toBeCloseTo((3 + 0.5) / 4, 9);
    expect(setupLikeness(a, only(1e-6, 2e-6))).toBeCloseTo(3 / 4, 9);
  });
});

describe("searchLike", () => {
  const cases = [
    caseOf("steel-low-carbon", "pulsed-100", rust),
    caseOf("steel-low-carbon", "pulsed-100", white),
    caseOf("aluminium-6061", "pulsed-100", white),
    caseOf("aluminium-5083", "continuous-1500", { ...white, colour: "dark" }),
    caseOf("aluminium-5083", "pulsed-100", white),
    caseOf("aluminium-5083", null, white, primer),
  ];

  it("puts the likest first and says why", () => {
    const found = searchLike(alone("white polyurethane on 5083"), cases);
    expect(found.map((f) => f.case.name.replace("polyurethane-topcoat", "pu"))).toEqual([
      "aluminium-5083 pulsed-100 pu",
      "aluminium-6061 pulsed-100 pu",
      "aluminium-5083 continuous-1500 pu",
      "aluminium-5083  pu epoxy-primer",
      "steel-low-carbon pulsed-100 pu",
      "steel-low-carbon pulsed-100 red-rust",
    ]);
    expect(found.map((f) => f.words)).toEqual([
      ["same coat", "same metal"],
      ["same coat", "Aluminium 6061 instead of Aluminium 5083"],
      ["dark instead of white polyurethane top coat", "same metal"],
      ["also mid epoxy primer", "same metal"],
      ["same coat", "steel instead of aluminium"],
      ["another coat", "steel instead of aluminium"],
    ]);
    expect(found[0]!.likeness).toBeCloseTo(1, 12);
    // coat and metal share their weights 0.5 and 0.3
    expect(found[4]!.likeness).toBeCloseTo(0.2 ** 0.375, 12);
    expect(found[5]!.likeness).toBe(0);
  });

  it("counts the set-up where one is asked for", () => {
    const c = cases[4]!;
    expect(one("white polyurethane on 5083 with pulsed-100", c).words).toEqual([
      "same coat",
      "same metal",
      "same set-up",
    ]);
    const other = one("white polyurethane on 5083 with pulsed-500", c);
    expect(other.words[2]).toBe("another pulsed set-up");
    expect(other.likeness).toBeCloseTo(
      setupLikeness(library.setup("pulsed-500"), library.setup("pulsed-100")) ** 0.2,
      12,
    );
    expect(one("white polyurethane on 5083 continuous", c).words[2]).toBe("pulsed instead of continuous");
    expect(one("5083 with pulsed-100", cases[5]!).words[1]).toBe("set-up not in the library");
  });

  it("asks for a part as it is, thickness included, and weighs what it may be", () => {
    const part = partOf("aluminium-5083", white);
    const self = searchLike(queriesOfPart(part, library.setup("pulsed-100")), [cases[4]!])[0]!;
    expect(self.likeness).toBeCloseTo(1, 12);
    const thick = caseOf("aluminium-5083", "pulsed-100", { ...white, thickness_um: 150 });
    expect(searchLike(queriesOfPart(part, null), [thick])[0]!.words[0]).toBe(
      "polyurethane top coat 2.5 times as thick",
    );
    const unknown = caseOf("aluminium-5083", "pulsed-100", { kind: "unknown" });
    const guess = searchLike(queriesOfPart(part, null), [unknown])[0]!;
    expect(guess.likeness).toBeLessThan(0.9);
    expect(guess.likeness).toBeGreaterThan(0.2);
    expect(guess.words.at(-1)).toBe("what it was burned on is not known for sure");
  });

  it("keeps likeness between 0 and 1 over the whole library", () => {
    const many = library.layerKinds.flatMap((k) =>
      library.setups.map((s) => caseOf("steel-low-carbon", s.id, { kind: k.id, thickness_um: 20 })),
    );
    for (const c of many.slice(0, 12)) {
      const found = searchLike(
        c.mixture.map(({ stack, weight }) => ({
          weight,
          query: {
            layers: stack.layers.map((l) => ({ kinds: [l.kind], colour: l.colour, thickness: l.thickness.value })),
            metals: [stack.metal],
            setups: [c.setup!],
          },
        })),
        many,
      );
      for (const f of found) expect(f.likeness >= 0 && f.likeness <= 1).toBe(true);
      expect(found[0]!.case.mixture[0]!.stack.layers[0]!.kind.id).toBe(c.mixture[0]!.stack.layers[0]!.kind.id);
    }
  });
});

const said = [
  "white",
  "on",
  "over",
  "rust",
  "5083",
  "pulsed",
  "constructor",
  "60 um",
  "1e999 um",
  "zinc",
  ",",
  "with",
  "0 um",
];

describe("readLikeText", () => {
  it.each([
    ["what do we know about white polyurethane on 5083?", "white polyurethane top coat on Aluminium 5083"],
    ["aluminium 5083 white polyurethane", "white polyurethane top coat on Aluminium 5083"],
    ["polyurethane over epoxy primer on aluminum 6061", "polyurethane top coat over epoxy primer on Aluminium 6061"],
    ["rusty steel with pulsed-100", "red rust on Low-carbon steel with Nanosecond pulsed 100 W"],
    ["red rust on low carbon steel, pulsed 100 W", "red rust on Low-carbon steel with Nanosecond pulsed 100 W"],
    ["zinc coating on steel", "zinc coating (galvanised) on Low-carbon steel"],
    ["zinc", "any coat on Zinc"],
    ["paint on stainless", "coating on Stainless steel 304 or Stainless steel 316"],
    ["mill scale, continuous 1.5 kW", "mill scale (magnetite) with Continuous 1.5 kW"],
    ["polyureth on 304", "polyurethane top coat on Stainless steel 304"],
    ["grey primer", "mid epoxy primer"],
  ])("reads %s", (text, words) => {
    const read = readLikeText(text, library);
    expect(queryWords(read.query)).toBe(words);
    expect(read.ignored).toEqual([]);
  });

  it("reads a thickness, and says what it did not understand", () => {
    const { query, ignored } = readLikeText("shiny alkyd 120 um on 304 for my boat", library);
    expect(query.layers?.[0]?.thickness).toBeCloseTo(120e-6, 12);
    expect(ignored).toEqual(["shiny", "my", "boat"]);
  });

  it("takes any text: understood, or refused in one line", () => {
    expect(readLikeText("constructor toString __proto__ rust", library).ignored).toEqual([
      "constructor",
      "tostring",
      "proto",
    ]);
    fc.assert(
      fc.property(
        fc.array(fc.oneof(fc.string({ maxLength: 12 }), fc.constantFrom(...said)), { maxLength: 12 }),
        (words) => {
          try {
            const { query, ignored } = readLikeText(words.join(" "), library);
            expect(query.layers.length + query.metals.length + query.setups.length).toBeGreaterThan(0);
            expect(queryWords(query)).not.toContain("undefined");
            expect(ignored.every((w) => typeof w === "string")).toBe(true);
          } catch (error) {
            expect(error).toBeInstanceOf(InvalidInput);
          }
        },
      ),
      { seed: 7, numRuns: 300 },
    );
  });

  it("refuses what names nothing", () => {
    expect(() => readLikeText("hello there", library)).toThrow(/^invalid question: hello there \(names no layer/);
    expect(() => readLikeText("  ", library)).toThrow(/^invalid question: empty \(/);
    expect(() => readLikeText("x".repeat(401), library)).toThrow(
      "invalid question: 401 characters (at most 400 characters)",
    );
  });
});
