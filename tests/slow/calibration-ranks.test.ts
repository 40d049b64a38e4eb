import { describe, expect, it } from "vitest";
import { rankTests } from "../calibration/sbc.ts";

describe("simulation-based calibration of the posterior of the physics", () => {
  it("has uniform ranks over 1,000 trials of 12 patches", () => {
    for (const { name, bins, shape } of rankTests(1000, 40_000)) {
      // 99.9 % points of χ² with 9 and with 2 degrees of freedom.
      expect(bins, name).toBeLessThan(27.9);
      expect(shape, name).toBeLessThan(13.8);
    }
  });
});
