import { describe, expect, it } from "vitest";
import { completeSetting } from "#beam";
import { parseEnquiry } from "#contract";
import { createLibrary } from "#library";
import { axisOver, createPartModel, type MapSpec, mapFlow, oddsOf, settingAt, workFlow } from "#workflows";

const library = createLibrary([]);
const enquiry = parseEnquiry(
  {
    parts: [
      {
        material: "steel-low-carbon",
        thickness_mm: 5,
        area_m2: 1,
        layers: [{ kind: "polyurethane-topcoat", colour: "white", thickness_um: 40 }],
      },
    ],
  },
  library,
);
const setup = library.setup("pulsed-500");
const setting = completeSetting(setup, { passes: 2 });
const work = { parts: enquiry.parts, seed: 5, drawCount: 12 };
const options = { part: 0, setup, seed: 9, drawCount: 12 };
const spec: MapSpec = {
  setting,
  x: axisOver(setup, setting, "frequency", 21),
  y: axisOver(setup, setting, "speed", 20),
};

describe("a map from physics alone", () => {
  const map = workFlow(mapFlow(spec, { ...options, checked: 20 }), work);

  it("agrees with the full evaluation and makes a fraction of the evaluations", () => {
    const model = createPartModel(enquiry.parts[0], { seed: 5, drawCount: 12 });
    let off = 0;
    for (let at = 0; at < 420; at += 7) {
      const [full] = oddsOf(model, setup, [settingAt(spec, at % 21, Math.floor(at / 21))]);
      if (Math.abs(full.clean - map.probabilityClean[at]) > 0.02) off++;
      if (Math.abs(full.undamaged - map.probabilityUndamaged[at]) > 0.02) off++;
    }
    expect(off).toBeLessThanOrEqual(2);
    expect(map.evaluations).toBeLessThan(0.6 * map.evaluationsInFull);
    expect(map.check.places).toBe(20);
    expect(map.words.join(" ")).toContain("20 places");
  });

  it("has an edge in it, and says where the machine cannot go", () => {
    const spread = (p: readonly number[]) => Math.max(...p) - Math.min(...p);
    expect(spread(map.probabilityClean)).toBeGreaterThan(0.9);
    expect(map.allowed).toHaveLength(420);
    const beyond: MapSpec = { ...spec, y: { control: "speed", values: [setup.speedMax, 2 * setup.speedMax] } };
    const { allowed } = workFlow(mapFlow(beyond, { ...options, checked: 0 }), work);
    expect(allowed.slice(0, 21)).toEqual(Array(21).fill(1));
    expect(allowed.slice(21)).toEqual(Array(21).fill(0));
  });

  it("reads its axes in the units of people", () => {
    expect(map.xName).toBe("frequency (kHz)");
    expect(map.x[20]).toBeCloseTo(spec.x.values[20] / 1e3, 9);
    expect(map.y[0]).toBeCloseTo(setup.speedMin * 1e3, 9);
  });

  it.each([
    [{ ...spec, y: spec.x }, "invalid axis of the map: frequency (must differ"],
    [{ ...spec, x: { control: "speed", values: [2, 1] }, y: spec.x }, "invalid speed: 1000 mm/s (must rise"],
    [{ ...spec, y: { control: "speed", values: [Number.NaN, 1] } }, "invalid speed: not a number mm/s (must rise"],
    [{ ...spec, y: { control: "passes", values: [1, 1.5] } }, "invalid passes: 1.5 (must be a whole number)"],
    [{ ...spec, y: { control: "speed", values: [1] } }, "invalid places along speed: 1 (must be 2 to 1000)"],
  ])("refuses axes without meaning", (bad, says) => {
    expect(() => workFlow(mapFlow(bad as MapSpec, options), work)).toThrow(says as string);
  });
});
