import { describe, expect, it } from "vitest";
import type { Ray } from "#edges";
import { bookText, keptRays, nameOfInputs, sameRay } from "../../src/cli/book-text.ts";

const ray: Ray = {
  setting: {
    power: 500,
    level: 0.905,
    duty: 1,
    frequency: 61_500,
    pulseWidth: 100e-9,
    speed: 6.512,
    lineSpacing: 0.307e-3,
    passes: 1,
    defocus: 6.7e-3,
    lens: "f160",
  },
  areaRate: 6.7 / 3600,
  groups: { time: 0.1, count: 0.2, passes: 1, spot: -9, dose: 10, power: 6.2, spacing: -1 } as Ray["groups"],
  slopes: {
    clean: { speed: 1, spot: 1 / 3, thickness: 0.5 },
    damage: { speed: 1, spot: 1, thickness: 0 },
  },
  half: Float64Array.of(-0.1, 1 / 3),
  clean: Float64Array.of(0.1 + 0.2, -3),
  melt: Float64Array.of(Number.MIN_VALUE, -0),
  damage: Float64Array.of(Math.PI, 3),
};

describe("edges kept as text", () => {
  const inputs = nameOfInputs(["version", { part: 1 }]);
  const text = bookText(inputs, { rays: [ray], besides: [{ ...ray, damage: Float64Array.of(1, 2) }] });

  it("come back to the last bit, with everything that a ray has", () => {
    const back = keptRays(text, inputs)!;
    expect(back.rays).toEqual([ray]);
    expect(Object.is(back.rays[0]!.melt[1], -0)).toBe(true);
    expect(back.besides[0]!.damage).toEqual(Float64Array.of(1, 2));
    expect(sameRay(back.rays[0]!, ray)).toBe(true);
    expect(sameRay(back.besides[0]!, ray)).toBe(false);
    const moved = Float64Array.of(ray.clean[0]! + Number.EPSILON / 4, -3);
    expect(sameRay({ ...ray, clean: moved }, ray)).toBe(moved[0] === ray.clean[0]);
    expect(sameRay({ ...ray, groups: { ...ray.groups, time: 0.3 } }, ray)).toBe(false);
  });

  it("are refused for other inputs, in another form, cut short or changed", () => {
    expect(keptRays(text, nameOfInputs(["version", { part: 2 }]))).toBeNull();
    expect(keptRays(text.replace('"form":1', '"form":2'), inputs)).toBeNull();
    expect(keptRays(text.slice(0, -40), inputs)).toBeNull();
    expect(keptRays(text.replace("6.512", "6.513"), inputs)).toBeNull();
    expect(keptRays("", inputs)).toBeNull();
    expect(keptRays("null", inputs)).toBeNull();
    expect(keptRays('{"form":1}', inputs)).toBeNull();
  });
});
