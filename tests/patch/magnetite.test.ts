import { describe, expect, it } from "vitest";
import { centralSample, layerKind, metal } from "#library";
import { Draw, magnetiteShare, metalAnswers } from "#patch";

const kind = layerKind("red-rust");
const sample = centralSample({
  metal: metal("steel-low-carbon"),
  metalThickness: 5e-3,
  layers: [{ kind, colour: "natural", thickness: kind.usualThickness, mustStay: false }],
});
const answers = metalAnswers(sample.metal);
const rusty = new Draw(sample, answers);

describe("rust turned to magnetite in one event", () => {
  it("needs tens of microseconds at 1800 K: next to none in 8 ns, some in 120 ns, most in 100 µs (Osticioli and Siano 2013, order)", () => {
    const share = (duration: number) => magnetiteShare(rusty, 1800 - 293, 293, duration);
    expect(share(8e-9)).toBeLessThan(0.01);
    expect(share(120e-9)).toBeLessThan(0.1);
    expect(share(100e-6)).toBeGreaterThan(0.8);
    expect(share(1e-6)).toBeGreaterThan(share(120e-9));
  });

  it("is none without heat, and none of a layer that is no rust", () => {
    expect(magnetiteShare(rusty, 0, 293, 1e-3)).toBeLessThan(1e-9);
    const bare = new Draw({ ...sample, layers: [] }, answers);
    expect(magnetiteShare(bare, 2000, 293, 1e-3)).toBe(0);
  });
});
