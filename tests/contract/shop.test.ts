import { describe, expect, it } from "vitest";
import { exampleShop, parseShop } from "#contract";
import { exampleCostInputs, exampleCostRanges } from "#cost";
import { linesOf } from "./lines.ts";

const refusal = (file: object) => linesOf(() => parseShop(file))[0];

describe("shop figures", () => {
  it("left out are the invented example figures, marked so", () => {
    const shop = exampleShop();
    expect(shop.inputs).toEqual(exampleCostInputs);
    expect(shop.inputs.note).toContain("invented");
    expect(shop.ranges).toEqual(exampleCostRanges);
    expect(shop.other).toEqual({ name: "", costPerArea: null, costPerYear: null });
    expect(shop.areaPerYear).toBeNull();
  });

  it("are read in their units, and the spreads go along with them", () => {
    const shop = parseShop({
      currency: "CHF",
      labour_per_h: 100,
      interest_percent: 4,
      salvage_percent: "20 %",
      auxiliaryPower_W: "2 kW",
      handling_s: "3 min",
      waste_per_m2: 1.5,
      areaPerYear_m2: 900,
      otherMethod: { name: "blasting", cost_per_m2: 40, cost_per_year: 0 },
      ranges: { energy_per_kWh: [0.2, 0.5] },
    });
    expect(shop.inputs).toMatchObject({ currency: "CHF", labour: 100, interest: 0.04, wastePerArea: 1.5 });
    expect(shop.inputs.salvageShare).toBeCloseTo(0.2, 12);
    expect(shop.inputs.auxiliaryPower).toBeCloseTo(2000, 9);
    expect(shop.times.handling).toBeCloseTo(180, 9);
    expect(shop.inputs.note).toMatch(/own figures; invented example figures where none was given/);
    // 42 to 62 around 50 in the example: the same shares around 100
    expect(shop.ranges.labour!.low).toBeCloseTo(84, 9);
    expect(shop.ranges.labour!.high).toBeCloseTo(124, 9);
    expect(shop.ranges.energyPrice).toEqual({ low: 0.2, high: 0.5 });
    expect(shop.other).toEqual({ name: "blasting", costPerArea: 40, costPerYear: 0 });
    expect(shop.areaPerYear).toBe(900);
  });

  it("that cannot be are refused in one line", () => {
    expect(refusal({ labour_per_h: -1 })).toMatch(/^invalid labour_per_h: -1/);
    expect(refusal({ hoursPerYear_h: 0 })).toMatch(/^invalid hoursPerYear_h: 0/);
    expect(refusal({ wages: 3 })).toMatch(/^invalid .*wages/);
    expect(refusal({ ranges: { labour_per_h: [60, 80] } })).toBe(
      "invalid range of labour: 60 to 80 (must hold the figure itself, 50)",
    );
  });
});
