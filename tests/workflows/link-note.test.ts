import { describe, expect, it } from "vitest";
import type { RayTruth } from "#window";
import { linkNotes } from "../../src/workflows/link-note.ts";

/** Versions of the truth whose edges lie so many deviations of drift away from x = 0. */
function truthAt(clean: readonly number[], damage: readonly number[]): RayTruth {
  const zero = () => new Float64Array(clean.length);
  const drift = 0.05;
  return {
    ray: {} as RayTruth["ray"],
    clean: Float64Array.from(clean, (z) => -z * drift),
    cleanSlope: zero(),
    damage: Float64Array.from(damage, (z) => z * drift),
    damageSlope: zero(),
    cleanDrift: drift,
    damageDrift: drift,
  };
}

const once = { burned: 3, good: 3 };
const FAR = 60;

describe("the note on the curve behind a chance", () => {
  it("says nothing of note at the median, where all links agree", () => {
    const [first] = linkNotes(truthAt([0], [FAR]), 0, once);
    expect(first).toContain("less than 0.1 in 100 more or fewer patches come out clean and undamaged");
  });

  it("gives the difference that the links make at 2.326 deviations, where probit fails 1 in 100", () => {
    // By hand: fast tail exp(−ln 2·e^(kz)) = 0.004 %, slow tail 1 − exp(−ln 2·e^(−kz)) = 4.65 %, k = φ(0)/(½·ln 2) = 1.1511.
    const k = 0.3989422804 / (Math.LN2 / 2);
    const slow = 100 * -Math.expm1(-Math.LN2 * Math.exp(-k * 2.3263479));
    const fast = 100 * Math.exp(-Math.LN2 * Math.exp(k * 2.3263479));
    expect([slow, fast]).toEqual([expect.closeTo(4.65, 2), expect.closeTo(0.004, 3)]);
    for (const truth of [truthAt([2.3263479], [FAR]), truthAt([FAR], [2.3263479])])
      expect(linkNotes(truth, 0, once)[0]).toContain("3.7 in 100 fewer to 1 more patches come out clean");
    // Both edges so near: twice as many either way.
    expect(linkNotes(truthAt([2.3263479], [2.3263479]), 0, once)[0]).toContain("7.3 in 100 fewer to 2 more");
  });

  it("averages over the versions, and counts the slopes of the edges", () => {
    const truth = truthAt([2.3263479, FAR], [FAR, FAR]);
    expect(linkNotes(truth, 0, once)[0]).toContain("1.8 in 100 fewer to 0.5 more");
    // clean edge at x = 0.05·z higher power once its slope of ½ is counted: z stays as it was
    const sloped = { ...truthAt([0], [FAR]), cleanSlope: Float64Array.of(0.5) };
    expect(linkNotes(sloped, 2 * 0.05 * 2.3263479, once)[0]).toContain("3.7 in 100 fewer to 1 more");
    const harmed = { ...truthAt([FAR], [0]), damageSlope: Float64Array.of(0.5) };
    expect(linkNotes(harmed, -2 * 0.05 * 2.3263479, once)[0]).toContain("3.7 in 100 fewer to 1 more");
  });

  it("names the patches that a claim of 1 in 100 takes, where the recommendation does not", () => {
    const size = (burned: number, good: number) => linkNotes(truthAt([0], [FAR]), 0, { burned, good }).slice(1);
    expect(size(3, 3)).toEqual([]);
    expect(size(0, 0)).toEqual([
      "To claim fewer than 1 failure in 100 with 95 % confidence: 299 patches of this setting, none of which fails.",
    ]);
    expect(size(5, 4)[0]).toContain("473 patches of this setting, no more than 1 of which fails.");
    expect(size(5, 3)[0]).toContain("628 patches of this setting, no more than 2 of which fail.");
  });
});
