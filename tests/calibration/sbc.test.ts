import { describe, expect, it } from "vitest";
import { rankTests } from "./sbc.ts";

/**
 * 99.6 % points of χ² with 9 and with 2 degrees of freedom. With this seed a right sampler stays below half of the first and a
 * fifth of the second; one that ignores wrong grades reaches 12.8 in the second, on the scatter.
 */
const BINS = 24.1;
const SHAPE = 11;

describe("truths from the prior among the posterior's particles", () => {
  it("have uniform ranks, over 200 trials of 12 patches", { timeout: 120_000 }, () => {
    for (const { name, bins, shape } of rankTests(200, 1)) {
      expect(bins, name).toBeLessThan(BINS);
      expect(shape, name).toBeLessThan(SHAPE);
    }
  });

  it("do not where the truths lie farther out than the prior says", { timeout: 120_000 }, () => {
    const [removal] = rankTests(40, 5, { removal: 3 });
    expect(removal!.bins).toBeGreaterThan(2 * BINS);
    expect(removal!.shape).toBeGreaterThan(2 * SHAPE);
  });
});
