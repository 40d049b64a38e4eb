import { describe, expect, it } from "vitest";
import { quantities, rankChiSquares } from "../calibration/sbc.ts";

describe("simulation-based calibration of the posterior of the physics", () => {
  it("has uniform ranks over 1,000 trials of 12 patches", () => {
    const found = rankChiSquares(1000, 40_000);
    // 99.9 % point of χ² with 9 degrees of freedom.
    for (const [q, name] of quantities.entries()) expect(found[q], name).toBeLessThan(27.9);
  });
});
