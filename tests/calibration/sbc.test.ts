import { describe, expect, it } from "vitest";
import { rankChiSquares } from "./sbc.ts";

/** 99.9 % point of χ² with 9 degrees of freedom; a right sampler with this seed stays at half of it. */
const LIMIT = 27.9;

describe("truths from the prior among the posterior's particles", () => {
  it("have uniform ranks, over 200 trials of 12 patches", { timeout: 120_000 }, () => {
    for (const chiSquare of rankChiSquares(200, 1)) expect(chiSquare).toBeLessThan(LIMIT);
  });

  it("do not where the truths lie farther out than the prior says", () => {
    expect(rankChiSquares(40, 5, { removal: 3 })[0]).toBeGreaterThan(2 * LIMIT);
  });
});
