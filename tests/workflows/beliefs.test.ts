import { describe, expect, it } from "vitest";
import { parseEnquiry } from "#contract";
import { createLibrary } from "#library";
import type { Belief, Lesson } from "#terms";
import { answerFlow, beliefsWithout, carried, createPartModel } from "#workflows";
import { widened } from "../../src/workflows/beliefs-widen.ts";

const library = createLibrary([]);
const enquiryOf = (material: string, layers: readonly object[]) =>
  parseEnquiry({ parts: [{ id: "p", material, layers }] }, library);
const partOf = (material: string, ...layers: readonly object[]) => enquiryOf(material, layers).parts[0]!;
const coat = { kind: "polyurethane-topcoat", colour: "white", thickness_um: 60 };
const part = partOf("aluminium-5083", coat);

const ABSORPTION = "layer:polyurethane-topcoat:white:absorption";
const lesson = (coordinate: string, mean: number, spread: number): Lesson => ({ coordinate, mean, spread });
const belief = (more: Partial<Belief> = {}): Belief => ({
  id: more.trialId ?? "t1",
  trialId: "t1",
  enquiryId: "e",
  partId: "p",
  setupId: "pulsed-100",
  metalId: "aluminium-5083",
  layers: [{ kindId: "polyurethane-topcoat", colour: "white", thickness: 60e-6 }],
  lessons: [lesson(ABSORPTION, 1, 0.5)],
  shifts: [],
  patches: 36,
  modelVersion: "m",
  ...more,
});
const counted = (mean: number, spread: number, share: number) => ({ lesson: lesson("x", mean, spread), share });

describe("widened", () => {
  it("counts a share of the information", () => {
    // P = 1 + (1/0.25 − 1)/2 = 2.5; mean' = (1/0.25)/2/2.5 = 0.8
    const half = widened([counted(1, 0.5, 0.5)]);
    expect(half.spread).toBeCloseTo(1 / Math.sqrt(2.5), 12);
    expect(half.mean).toBeCloseTo(0.8, 12);
    expect(widened([counted(1, 0.5, 1)])).toEqual({ mean: 1, spread: 0.5 });
  });

  it("is never narrower than the lesson and never wider than the prior", () => {
    for (const s of [0.31, 0.5, 0.8, 1, 1.4]) {
      for (const k of [0.125, 0.25, 0.5, 1]) {
        const { mean, spread } = widened([counted(-1, s, k)]);
        expect(spread).toBeGreaterThanOrEqual(Math.min(1, s) - 1e-12);
        expect(spread).toBeLessThanOrEqual(1);
        expect(Math.abs(mean)).toBeLessThanOrEqual(1);
      }
    }
  });

  it("adds the information of several and stops at the floor", () => {
    const two = widened([counted(1, 0.5, 0.5), counted(0, 0.5, 0.5)]);
    expect(two.spread).toBeCloseTo(0.5, 12);
    expect(two.mean).toBeCloseTo(0.5, 12);
    const many = widened(Array.from({ length: 100 }, () => counted(0.4, 0.4, 0.5)));
    expect(many.spread).toBe(0.3);
    // what all of them measured: 0.4 was pulled towards 0 by the prior, 0.4/(1 − 0.4²) without it
    expect(many.mean).toBeCloseTo(0.4 / 0.84, 2);
  });
});

describe("carried", () => {
  const at = (b: readonly Belief[], p = part, setupId = "pulsed-100") =>
    carried(b, p, { setup: library.setup(setupId) });

  it("counts half on the same coat and metal, a quarter within the family, nothing on another", () => {
    const spread = (k: number) => 1 / Math.sqrt(1 + 3 * k);
    expect(at([belief()]).properties.get(ABSORPTION)?.spread).toBeCloseTo(spread(0.5), 12);
    expect(at([belief({ metalId: "aluminium-6061" })]).properties.get(ABSORPTION)?.spread).toBeCloseTo(
      spread(0.25),
      12,
    );
    expect(at([belief({ metalId: "steel-low-carbon" })]).properties.size).toBe(0);
    expect(at([belief()], partOf("aluminium-5083", { ...coat, colour: "dark" })).properties.size).toBe(0);
  });

  it("writes the metal's numbers under the metal of the job, whatever lies on it", () => {
    const lessons = [lesson("metal:aluminium-6061:absorptance", 1, 0.5)];
    const rubber = partOf("aluminium-5083", { kind: "rubber-residue" });
    const { properties } = at([belief({ metalId: "aluminium-6061", lessons })], rubber);
    expect([...properties.keys()]).toEqual(["metal:aluminium-5083:absorptance"]);
  });

  it("leaves thickness and machine to each job, and takes the plume from a coat that both have", () => {
    const names = ["layer:polyurethane-topcoat:white:thickness", "machine:spot", "machine:power", "plume"];
    const lessons = names.map((n) => lesson(n, 1, 0.5));
    expect([...at([belief({ lessons })]).properties.keys()]).toEqual(["plume"]);
    expect(at([belief({ lessons })], partOf("aluminium-5083", { kind: "oil-film" })).properties.size).toBe(0);
  });

  it("counts in a mixture as in the stack where it counts least", () => {
    const unknown = partOf("unknown", coat);
    expect(at([belief()], unknown).properties.size).toBe(0);
    const colours = partOf("aluminium-5083", { kind: "polyurethane-topcoat", thickness_um: 60 });
    expect(at([belief()], colours).properties.has(ABSORPTION)).toBe(true);
  });

  it("counts shifts a quarter under the same coat, an eighth on another set-up of its kind", () => {
    const b = belief({ shifts: [lesson("removal threshold level", 1, 0.5)] });
    const spread = (k: number) => 1 / Math.sqrt(1 + 3 * k);
    const shift = (setupId: string, p = part) => at([b], p, setupId).shifts.get("removal threshold level")?.spread;
    expect(shift("pulsed-100")).toBeCloseTo(spread(0.25), 12);
    expect(shift("pulsed-500")).toBeCloseTo(spread(0.125), 12);
    expect(shift("continuous-1500")).toBeUndefined();
    expect(carried([b], part).shifts.size).toBe(0);
    expect(shift("pulsed-100", partOf("aluminium-6061", coat))).toBeCloseTo(spread(0.125), 12);
    expect(
      shift("pulsed-100", partOf("aluminium-5083", coat, { kind: "epoxy-primer", colour: "mid" })),
    ).toBeUndefined();
  });

  it("counts no patch twice", () => {
    const once = at([belief()]).properties;
    expect(at([belief({ id: "a", patches: 12 }), belief({ id: "b" })]).properties).toEqual(once);
    const second = belief({ trialId: "t2", builtOn: ["t1"], lessons: [lesson(ABSORPTION, 2, 0.6)] });
    expect(at([belief(), second]).properties).toEqual(at([second]).properties);
    // near and far: t3 was built on t2, and t2 on t1
    const third = belief({ trialId: "t3", builtOn: ["t2"] });
    expect(at([belief(), second, third]).from).toEqual(["t3"]);
    expect(beliefsWithout([belief(), second, third], ["t1"])).toEqual([]);
    expect(beliefsWithout([belief(), second, third], ["t2"])).toEqual([belief()]);
    // What the later trial says nothing of still counts from the earlier one.
    const metalOnly = belief({
      trialId: "t4",
      builtOn: ["t1"],
      lessons: [lesson("metal:aluminium-5083:absorptance", 1, 0.5)],
    });
    expect(new Set(at([belief(), metalOnly]).properties.keys())).toEqual(
      new Set([ABSORPTION, "metal:aluminium-5083:absorptance"]),
    );
  });

  it("says what was carried, from where and how it was widened", () => {
    const lessons = [
      lesson(ABSORPTION, 1, 0.5),
      lesson("layer:polyurethane-topcoat:white:scattering", -0.5, 0.6),
      lesson("layer:polyurethane-topcoat:white:density", 0.01, 0.99),
    ];
    const { words, from } = at([belief({ lessons, shifts: [lesson("removal threshold level", 1, 0.5)] })]);
    expect(words[0]).toBe(
      "absorption and scattering of white polyurethane top coat: from trial t1 (36 patches), counted half",
    );
    expect(words[1]).toBe(
      "removal threshold level (how far the physics was off): from trial t1 (36 patches), counted a quarter",
    );
    expect(words[2]).toContain("0.3 of the library's spread");
    expect(from).toEqual(["t1"]);
    const more = [1, 2, 3, 4, 5].map((i) => belief({ trialId: `t${i}`, patches: 10 * i }));
    expect(at(more).words[0]).toBe(
      "absorption of white polyurethane top coat: from trials t5 (50 patches), t4 (40 patches), t3 (30 patches) and 2 more, counted half",
    );
    expect(at(more.slice(0, 2)).words[0]).toContain("from trials t2 (20 patches) and t1 (10 patches), counted half");
    expect(at([]).words).toEqual([]);
    expect(at([belief({ lessons: lessons.slice(2) })]).words).toEqual([
      "Earlier trials (t1) taught nothing that stands out here.",
    ]);
  });

  it("refuses bad lessons in one line", () => {
    const bad = (mean: number, spread: number) => () => at([belief({ lessons: [lesson("plume", mean, spread)] })]);
    expect(bad(0, 0)).toThrow("invalid spread of plume (trial t1): 0 (must be greater than 0)");
    expect(bad(0, Number.NaN)).toThrow("invalid spread of plume (trial t1): not a number (must be greater than 0)");
    expect(bad(Number.NaN, 1)).toThrow("invalid mean of plume (trial t1): not a number (must be a finite number)");
  });
});

describe("a part with beliefs", () => {
  it("draws about what is known and keeps the words", () => {
    const options = { seed: 3, drawCount: 32 };
    const plain = createPartModel(part, options);
    const known = createPartModel(part, { ...options, beliefs: [belief()] });
    const logMean = (m: typeof plain) =>
      m.draws.reduce((sum, d) => sum + Math.log(d.sample.layers[0]!.absorption), 0) / m.draws.length;
    const { high, value } = part.mixture[0]!.stack.layers[0]!.kind.optics.white!.absorption;
    // mean 0.8 of a spread of ln(high/value)/1.645
    expect(logMean(known) - logMean(plain)).toBeCloseTo((0.8 * Math.log(high / value)) / 1.6448536, 1);
    expect(known.draws[0]!.sample.layers[0]!.scattering).toBe(plain.draws[0]!.sample.layers[0]!.scattering);
    expect(known.carried.words[0]).toContain("from trial t1");
    expect(plain.carried.words).toEqual([]);
  });

  it("says so among the assumptions of an answer", () => {
    const enquiry = enquiryOf("aluminium-5083", [coat]);
    const flow = answerFlow(enquiry, { seed: 1, drawCount: 8, setups: [], trials: [], beliefs: [belief()] });
    let step = flow.next([]);
    while (!step.done) step = flow.next([]);
    expect(step.value.parts[0]!.part.assumptions?.some((a) => a.includes("from trial t1"))).toBe(true);
  });
});
