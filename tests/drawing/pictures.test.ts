import {
  comparisonBarsSvg,
  couponSvg,
  outcomeState,
  pageTheme,
  stackSectionSvg,
  timeText,
  windowMapSvg,
} from "#drawing";
import { describe, expect, it } from "vitest";
import { map, outcomes, trial } from "../report/fixture-trial.ts";
import { allNodes, nodesNamed, soundSvg, type XmlNode } from "./xml-check.ts";

const limits = { residueMax: 0.02, metalConditionMax: 1 } as const;
const words = (root: XmlNode): string[] => nodesNamed(root, "text").map((n) => n.text);

describe("stack section", () => {
  const layer = (name: string, thickness_um: number, mustStay = false) => ({
    name,
    thickness_um,
    colour: "#6f8493",
    mustStay,
  });
  const rects = (root: XmlNode) => nodesNamed(root, "rect").filter((n) => n.attributes.fill === "#6f8493");

  it("draws layers in scale with each other", () => {
    const root = soundSvg(stackSectionSvg([layer("top coat", 60), layer("primer", 20)], "aluminium 5083"));
    const [top, primer] = rects(root).map((n) => Number(n.attributes.height));
    expect(top! / primer!).toBeCloseTo(3, 3);
    expect(Number(rects(root)[1]!.attributes.y)).toBeCloseTo(Number(rects(root)[0]!.attributes.y) + top!, 3);
  });

  it("says where a layer is drawn thicker than it is, and which must stay", () => {
    const all = words(soundSvg(stackSectionSvg([layer("oil film", 0.5), layer("primer", 80, true)], "steel"))).join(
      " ",
    );
    expect(all).toContain("(drawn thicker)");
    expect(all).toContain("must stay");
    expect(words(soundSvg(stackSectionSvg([layer("coat", 50)], "steel"))).join(" ")).not.toContain("drawn thicker");
  });

  it("shows a film of one pulse with its times and temperatures", () => {
    const film = {
      times: [0, 1e-7, 1e-5],
      depths: [0, 1e-5, 2e-5],
      temperature: [
        [300, 300, 300],
        [1273.15, 600, 300],
        [500, 450, 400],
      ],
    };
    const root = soundSvg(stackSectionSvg([layer("coat", 50)], "steel", { film }));
    expect(words(root)).toEqual(expect.arrayContaining(["100 ns", "10 µs", "27 °C", "1000 °C"]));
    expect(timeText(2.5e-3)).toBe("2.5 ms");
    expect(() => stackSectionSvg([layer("coat", 50)], "steel", { film: { ...film, times: [0] } })).toThrow(
      "invalid heat film",
    );
  });

  it("refuses a layer without thickness, and draws bare metal", () => {
    expect(() => stackSectionSvg([layer("coat", 0)], "steel")).toThrow(
      "invalid thickness of coat: 0 um (must be above 0)",
    );
    soundSvg(stackSectionSvg([], "steel", { theme: pageTheme }));
  });
});

describe("coupon", () => {
  const coupon = trial.coupons[0]!;

  it("is as large as it says: one unit is one millimetre", () => {
    const { attributes } = soundSvg(couponSvg(trial, coupon, { trueSize: true }));
    expect(attributes.width).toBe("128mm");
    expect(attributes.viewBox).toBe(`0 0 128 ${attributes.height!.replace("mm", "")}`);
    expect(soundSvg(couponSvg(trial, coupon, { trueSize: false })).attributes.width).toBe("128");
  });

  it("puts every patch where it is planned, seen from the lower left corner, 15 mm wide", () => {
    const root = soundSvg(couponSvg(trial, coupon, { trueSize: true }));
    const boxes = nodesNamed(root, "rect").filter((n) => n.attributes["stroke-width"] === "0.2");
    expect(boxes).toHaveLength(24);
    trial.patches.forEach((patch, i) => {
      const { x, y, width } = boxes[i]!.attributes;
      expect(Number(width)).toBe(15);
      expect(Number(x)).toBeCloseTo(patch.x * 1000, 2);
      expect(Number(y)).toBeCloseTo(80 - patch.y * 1000 - 15, 2);
    });
  });

  it("has a ruler of 50 mm, numbers, run order, references and a caution", () => {
    const svg = couponSvg(trial, coupon, { trueSize: true });
    expect(svg).toMatch(/M4 [\d.]+h50M/);
    const all = words(soundSvg(svg));
    expect(all).toEqual(expect.arrayContaining(["1", "24", "run 8", "run 6 = 18", "untouched", "cleaned ref."]));
    expect(all.join(" ")).toContain("laser safety officer");
  });

  it("says how far apart patches lie and which ones to wait for", () => {
    const spacing = { gap: 5.5e-3, gapNeeded: null, wait: 40, limit: 15, warmest: 14, couponRise: 9, words: "" };
    const patches = trial.patches.map((p) => (p.setting === null ? p : { ...p, wait: p.runOrder === 8 ? 40 : 0 }));
    const all = words(soundSvg(couponSvg({ ...trial, spacing, patches }, coupon, { trueSize: true })));
    expect(all.filter((w) => w.startsWith("wait "))).toEqual(["wait 40 s"]);
    expect(all.join(" ")).toContain("gap 5.5 mm · wait first where a patch says so");
    expect(words(soundSvg(couponSvg(trial, coupon, { trueSize: true }))).join(" ")).not.toContain("gap");
  });

  it("tells outcomes apart by letter as well as by mark", () => {
    const states = Object.fromEntries(outcomes.map((o) => [o.patch, outcomeState(o, limits)]));
    const all = words(soundSvg(couponSvg(trial, coupon, { trueSize: true, outcomes: states })));
    const count = (letter: string) => all.filter((w) => w === letter).length;
    const of = (state: string) => Object.values(states).filter((s) => s === state).length;
    expect([count("C"), count("R"), count("D")]).toEqual([of("good"), of("residue"), of("damaged")]);
    expect(of("damaged")).toBeGreaterThan(0);
  });
});

describe("state of an outcome", () => {
  const outcome = outcomes[0]!;
  it.each([
    [0.01, 0, "good"],
    [0.02, 1, "good"],
    [0.021, 0, "residue"],
    [0.5, 2, "damaged"],
    [null, 2, "damaged"],
    [0.5, null, "residue"],
    [0.01, null, "unknown"],
    [null, 0, "unknown"],
  ] as const)("residue %s, condition %s: %s", (residueFraction, metalCondition, state) => {
    expect(outcomeState({ ...outcome, residueFraction, metalCondition }, limits)).toBe(state);
  });
});

describe("window map", () => {
  const marks = [
    { patch: 1, x: 1.2, y: 0.5, state: "good" },
    { patch: 2, x: 2.4, y: 0.35, state: "residue" },
    { patch: 3, x: 1.2, y: 1, state: "damaged" },
    { patch: 4, x: 99, y: 0.5, state: "good" },
  ] as const;

  it("shows field, labelled lines, both edges in their own dashes, marks and the recommended point", () => {
    const root = soundSvg(windowMapSvg(map, marks, { x: 2.4, y: 0.9 }));
    const all = words(root);
    expect(all).toEqual(
      expect.arrayContaining(["0.8", "0.95", "speed (m/s)", "level", "recommended", "1 patch lies off this map"]),
    );
    const dashes = nodesNamed(root, "path").map((n) => n.attributes["stroke-dasharray"]);
    expect(dashes).toEqual(expect.arrayContaining(["9 4", "2 3"]));
  });

  it("puts the clean edge where P(clean) is 0.5", () => {
    // the fixture's edge: level = 0.42·sqrt(speed); frame 66..484 × 12..378, both axes logarithmic
    const root = soundSvg(windowMapSvg(map, [], null));
    const edge = nodesNamed(root, "path").find(
      (n) => n.attributes["stroke-dasharray"] === "9 4" && n.attributes.d!.length > 20,
    )!;
    const points = [...edge.attributes.d!.matchAll(/([\d.]+) ([\d.]+)/g)].map(
      (m) => [Number(m[1]), Number(m[2])] as const,
    );
    expect(points.length).toBeGreaterThan(20);
    for (const [px, py] of points) {
      const speed = 0.6 * 10 ** ((px - 66) / 418);
      const level = 0.3 * (1 / 0.3) ** ((378 - py) / 366);
      expect(level / (0.42 * Math.sqrt(speed))).toBeCloseTo(1, 2);
    }
  });

  it("refuses a grid that does not fit its axes", () => {
    expect(() => windowMapSvg({ ...map, x: map.x.slice(1) }, [], null)).toThrow("invalid window map");
  });
});

describe("comparison bars", () => {
  it("draws lengths in proportion and says what is not known", () => {
    const rows = [
      { label: "a", value: 4, low: 3, high: 5, text: "4 m²/h" },
      { label: "b", value: 1, text: "1 m²/h" },
      { label: "c", value: null, text: "does not remove" },
    ];
    const root = soundSvg(comparisonBarsSvg(rows, { axisName: "area rate (m²/h)" }));
    const bars = nodesNamed(root, "rect").filter((n) => n.attributes.height === "14");
    expect(bars).toHaveLength(2);
    expect(Number(bars[0]!.attributes.width) / Number(bars[1]!.attributes.width)).toBeCloseTo(4, 2);
    expect(words(root)).toContain("does not remove");
    expect(allNodes(soundSvg(comparisonBarsSvg([], { axisName: "x" }))).length).toBeGreaterThan(3);
  });
});
