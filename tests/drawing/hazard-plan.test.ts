import { beamState, defaultSetting } from "#beam";
import { graphiteTheme, hazardPlanSvg } from "#drawing";
import { setup, setups } from "#library";
import { type HazardDistance, type HazardDistances, hazardDistances, type HazardPath } from "#safety";
import { describe, expect, it } from "vitest";
import { planReach } from "../../src/drawing/hazard-reach.ts";
import { nodesNamed, soundSvg, type XmlNode } from "./xml-check.ts";

const machine = setup("pulsed-200");
const setting = defaultSetting(machine);
const real = hazardDistances(machine, setting, beamState(machine, setting));

const reach = (path: HazardPath, eye: number, skin: number): HazardDistance => ({
  path,
  eye,
  skin,
  eyeShown: eye,
  skinShown: skin,
});
const hazards = (direct: number, mirror: number, diffuse: number, even: number): HazardDistances => ({
  ...real,
  fan: 0.6,
  distances: [
    reach("direct beam behind the lens", direct, direct / 10),
    reach("mirror-like part of the reflection", mirror, mirror / 10),
    reach("diffuse reflection", diffuse, diffuse / 10),
    reach("scattered evenly", even, even / 10),
    reach("lens removed, collimated beam", 1410, 141),
    reach("open fibre end", 20, 2),
  ],
});
const words = (root: XmlNode): string[] => nodesNamed(root, "text").map((n) => n.text);
const paths = (root: XmlNode, stroke: string): string[] =>
  nodesNamed(root, "path")
    .filter((n) => n.attributes.stroke === stroke)
    .map((n) => n.attributes.d!);
/** Radius of the first arc of a path. */
const arc = (d: string): number => Number(/A([\d.]+)/.exec(d)![1]);
/** Breaks are the only paths of two strokes and nothing else; the scale bar has a "v". */
const breaks = (root: XmlNode): number =>
  nodesNamed(root, "path").filter((n) => /^M[^MLAvZ]+L[^MLAvZ]+M[^MLAvZ]+L[^MLAvZ]+$/.test(n.attributes.d!)).length;
const eyeInk = "#b4541a";

describe("hazard plan", () => {
  it("draws every reach on one scale, and the person on it too", () => {
    const root = soundSvg(hazardPlanSvg(hazards(6, 3, 2, 1)));
    const eye = paths(root, eyeInk);
    // Longest first: direct 6 m at 170 units, mirror-like 3 m, diffuse (no arc) 2 m, even 1 m.
    expect(eye).toHaveLength(4);
    expect([arc(eye[0]!), arc(eye[1]!), arc(eye[3]!)]).toEqual([170, 85, expect.closeTo(170 / 6, 2)]);
    // The fan is 0.6 rad wide.
    const [x, y] = /L([\d.]+) ([\d.]+)A/.exec(eye[0]!)!.slice(1).map(Number) as [number, number];
    expect(Math.atan2(194 - y, 250 - x)).toBeCloseTo(0.3, 4);
    const far = Math.max(...[...eye[2]!.matchAll(/([\d.]+) [\d.]+/g)].map((m) => Number(m[1])));
    expect(far - 250).toBeCloseTo(170 / 3, 1);
    expect(breaks(root)).toBe(0);
    const shoulders = nodesNamed(root, "ellipse")[0]!.attributes;
    expect((2 * Number(shoulders.rx)) / (170 / 6)).toBeCloseTo(0.46, 3);
    // Scale bar: 2 m of 6 m at 170 units.
    expect(words(root)).toEqual(expect.arrayContaining(["2 m", "person, 1.75 m tall, from above"]));
    expect(root.children.map((n) => n.attributes.d ?? "").join(" ")).toMatch(/M4 \d+h56\.667m/);
  });

  it("has the shape of Lambert's law for the diffuse reflection", () => {
    const d = paths(soundSvg(hazardPlanSvg(hazards(2, 2, 2, 2))), eyeInk).find((p) => !p.includes("A"))!;
    const points = [...d.matchAll(/([\d.]+) ([\d.]+)/g)].map((m) => [Number(m[1]) - 250, Number(m[2]) - 194] as const);
    // r = 170·√(x/r), so that r³ = 170²·x.
    for (const [x, y] of points) expect(Math.hypot(x, y) ** 3 / 170 ** 2 - x).toBeCloseTo(0, 1);
    expect(points.length).toBeGreaterThan(60);
  });

  it("cuts what reaches more than 20 times as far as the shortest, and says so", () => {
    const at20 = soundSvg(hazardPlanSvg(hazards(20, 5, 2, 1)));
    expect(breaks(at20)).toBe(0);
    expect(words(at20).join(" ")).not.toContain("cut here");
    const past = soundSvg(hazardPlanSvg(hazards(20.1, 5, 2, 1)));
    expect(breaks(past)).toBe(1);
    expect(words(past).filter((w) => w === "cut here, not to scale")).toHaveLength(1);
    // The scale is now that of the longest which is not cut.
    expect(arc(paths(past, eyeInk)[1]!)).toBe(170);
    const both = soundSvg(hazardPlanSvg(hazards(1410, 540, 1.4, 1)));
    expect(breaks(both)).toBe(3);
    expect(words(both)).toEqual(expect.arrayContaining(["eye 1410 m", "eye 540 m"]));
    expect(planReach(hazards(1410, 540, 1.4, 1).distances).radius).toBe(1.4);
  });

  it("draws the reach for skin dashed where it stands on the plan", () => {
    const dashed = (root: XmlNode) =>
      nodesNamed(root, "path").filter((n) => n.attributes["stroke-dasharray"] === "3 2.5");
    expect(dashed(soundSvg(hazardPlanSvg(hazards(6, 3, 2, 1))))).toHaveLength(4);
    // 54 m for skin leaves the plan, as the 141 m do.
    expect(dashed(soundSvg(hazardPlanSvg(hazards(1410, 540, 1.4, 1))))).toHaveLength(2);
  });

  it("puts every path on the scale below: a decade is a decade", () => {
    const root = soundSvg(hazardPlanSvg(hazards(100, 10, 1, 1)));
    const discs = nodesNamed(root, "circle").filter((n) => n.attributes.r === "4.5");
    const x = discs.map((n) => Number(n.attributes.cx));
    expect(x).toHaveLength(6);
    expect(x[0]! - x[1]!).toBeCloseTo(x[1]! - x[2]!, 2);
    expect(x[4]! - x[0]!).toBeCloseTo((x[0]! - x[1]!) * Math.log10(14.1), 2);
  });

  it("names itself and all paths, and defers to the laser safety officer", () => {
    const root = soundSvg(hazardPlanSvg(real, { id: "zone" }));
    const text = (name: string) => nodesNamed(root, name)[0]!.text;
    expect(root.attributes["aria-labelledby"]).toBe("zone-title zone-desc");
    expect(text("title")).toBe("Nominal hazard zone to scale, seen from above");
    for (const d of real.distances) expect(text("desc")).toContain(d.path);
    expect(text("desc")).toContain("laser safety officer");
    expect(words(root).join(" ")).toContain("laser safety officer");
    expect(words(root).join(" ")).not.toMatch(/\bsafe\b/i);
  });

  it("is sound and the same every time for every set-up, bright and dark", () => {
    for (const one of setups) {
      const chosen = defaultSetting(one);
      const found = hazardDistances(one, chosen, beamState(one, chosen), { diffuseReflectance: 0.02 });
      const svg = hazardPlanSvg(found, { theme: graphiteTheme });
      soundSvg(svg);
      expect(hazardPlanSvg(found, { theme: graphiteTheme })).toBe(svg);
    }
  });

  it("leaves out a path that reaches nowhere and refuses what cannot be drawn", () => {
    const none = reach("diffuse reflection", 0, 0);
    const some = { ...real, distances: [none, reach("scattered evenly", 1, 0)] };
    const root = soundSvg(hazardPlanSvg(some));
    expect(paths(root, eyeInk)).toHaveLength(1);
    expect(() => hazardPlanSvg({ ...real, distances: [none] })).toThrow("invalid hazard distances: 1");
    expect(() => hazardPlanSvg({ ...real, distances: [reach("scattered evenly", Number.NaN, 1)] })).toThrow(
      "invalid hazard distance, scattered evenly: not a number m",
    );
    expect(() => hazardPlanSvg({ ...real, distances: [reach("open fibre end", -1, 1)] })).toThrow("-1 m");
  });
});
