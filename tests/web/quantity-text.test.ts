import { describe, expect, it } from "vitest";
import { quantityText, rangeText, shownUnit } from "../../src/web/show/quantity-text.ts";
import { setUnitSystem } from "../../src/web/show/unit-system.ts";

describe("units on the pages", () => {
  it("are metric until US customary ones are asked for, and change back", () => {
    expect(quantityText(0.0254, "mm")).toBe("25.4 mm");
    setUnitSystem("us");
    try {
      // Exact by definition since 1959: 1 in = 25.4 mm, 1 ft = 0.3048 m; NIST SP 811 for °F.
      expect(quantityText(0.0254, "mm")).toBe("1 in");
      expect(quantityText(25.4e-6, "um")).toBe("1 mil");
      expect(quantityText(373.15, "degC")).toBe("212 °F");
      expect(quantityText(233.15, "degC")).toBe("−40 °F");
      expect(quantityText(0.09290304 / 3600, "m2/h")).toBe("1 ft²/h");
      expect(rangeText(0.3048, 0.6096, "m")).toBe("1 to 2 ft");
    } finally {
      setUnitSystem("metric");
    }
    expect(rangeText(0.3048, 0.6096, "m")).toBe("0.305 to 0.61 m");
  });

  it("leave the laser's own units alone", () => {
    for (const unit of ["W", "kHz", "ns", "mJ", "J/cm2", "W/cm2", "%", "h", "K"])
      expect(shownUnit(unit, "us")).toBe(unit);
  });
});
