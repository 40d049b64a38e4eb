import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Belief } from "#terms";
import { withSamplingError } from "#workflows";

const belief = (mean: number, spread: number): Belief => ({
  id: "b",
  trialId: "t",
  enquiryId: "e",
  partId: "p",
  setupId: "s",
  metalId: "m",
  layers: [],
  lessons: [{ coordinate: "metal:m:absorptance", mean, spread }],
  shifts: [{ coordinate: "damage threshold", mean: 1, spread: 0.2 }],
  patches: 20,
  modelVersion: "v",
});
const after = (mean: number, spread: number, versions: number) =>
  withSamplingError(belief(mean, spread), versions).lessons[0]!;

describe("a belief that rests on few versions of the physics", () => {
  it("carries nothing that four versions have in common by chance: by hand", () => {
    // s² = 0.75·4/3 = 1: nothing was learnt
    expect(after(0.5, Math.sqrt(0.75), 4)).toMatchObject({ mean: expect.closeTo(0, 12), spread: 1 });
    // s² = 0.3²·4/3 = 0.12, k = 0.88/(0.88 + 0.25), spread² = 0.12 + 0.25
    expect(after(-1, 0.3, 4)).toMatchObject({
      mean: expect.closeTo(-0.88 / 1.13, 12),
      spread: expect.closeTo(Math.sqrt(0.37), 12),
    });
    expect(after(2, 0.05, 1)).toMatchObject({ mean: 0, spread: 1 });
  });

  it("leaves what many versions agree on, and the shifts", () => {
    const many = after(1.5, 0.4, 1e6);
    expect([many.mean, many.spread]).toEqual([expect.closeTo(1.5, 5), expect.closeTo(0.4, 5)]);
    expect(withSamplingError(belief(1, 0.5), 3).shifts).toEqual(belief(1, 0.5).shifts);
  });

  it("never claims more than was there, whatever the numbers", () => {
    const numbers = [
      fc.double({ min: -4, max: 4, noNaN: true }),
      fc.double({ min: 0.05, max: 1, noNaN: true }),
    ] as const;
    fc.assert(
      fc.property(...numbers, fc.double({ min: 1, max: 4096, noNaN: true }), (mean, spread, versions) => {
        const got = after(mean, spread, versions);
        expect(Math.abs(got.mean)).toBeLessThanOrEqual(Math.abs(mean));
        expect(got.spread).toBeGreaterThanOrEqual(spread);
        expect(got.spread).toBeLessThanOrEqual(1);
      }),
    );
    expect(() => withSamplingError(belief(0, 1), 0.5)).toThrow(/^invalid versions behind a belief: 0.5/);
  });
});
