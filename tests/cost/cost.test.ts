import {
  abrasiveCostPerArea,
  annualCapital,
  capitalRecoveryFactor,
  costPerArea,
  exampleCostInputs,
  hourlyCost,
  publishedRateRange,
} from "#cost";
import { setup } from "#library";
import { InvalidInput } from "#units";
import fc from "fast-check";
import { describe, expect, it } from "vitest";

describe("capital (engineering-economy tables)", () => {
  it.each([
    [0.035, 0.12024],
    [0.06, 0.13587],
    [0.08, 0.14903],
    [0.1, 0.16275],
  ])("CRF over 10 years at %d is %d", (interest, printed) => {
    expect(Math.abs(capitalRecoveryFactor(interest, 10) - printed)).toBeLessThanOrEqual(0.5e-5);
  });

  it("$50,000, salvage $5,000, 5 years, 10 % is $12,371 a year", () => {
    expect(Math.round(annualCapital(50000, 5000, 0.1, 5))).toBe(12371);
  });

  it("goes over into 1/n without interest", () => {
    expect(capitalRecoveryFactor(0, 8)).toBe(0.125);
    expect(capitalRecoveryFactor(1e-12, 8)).toBeCloseTo(0.125, 11);
    expect(() => capitalRecoveryFactor(0.1, 2.5)).toThrow("invalid years: 2.5");
    expect(() => annualCapital(100, 101, 0.1, 5)).toThrow("invalid salvage value: 101 (not above the price)");
  });
});

it("abrasive blasting costs $16.46 and $11.88 per m² (published worked example)", () => {
  const work = { disposalPrice: 172, equipment: 57, labour: 45 };
  expect(abrasiveCostPerArea({ ...work, abrasive_t_per_h: 0.65, abrasivePrice: 51, rate_m2_per_h: 15 })).toBeCloseTo(
    16.46,
    2,
  );
  expect(abrasiveCostPerArea({ ...work, abrasive_t_per_h: 0.3, abrasivePrice: 280, rate_m2_per_h: 20 })).toBeCloseTo(
    11.88,
    2,
  );
  expect(() => abrasiveCostPerArea({ ...work, abrasive_t_per_h: 0.3, abrasivePrice: 280, rate_m2_per_h: 0 })).toThrow(
    InvalidInput,
  );
});

describe("published rates", () => {
  it("puts 100 W on 50 µm between 0.55 and 4.8 m²/h (1.3 and 0.15 J/cm² per µm)", () => {
    const { slow, fast } = publishedRateRange(100, 50e-6);
    expect(slow * 3600).toBeCloseTo((100 * 3600) / (1.3e4 * 50), 9);
    expect(fast * 3600).toBeCloseTo((100 * 3600) / (0.15e4 * 50), 9);
  });
});

describe("cost per area", () => {
  const machine = {
    ...setup("pulsed-200"),
    wallPlugEfficiency: 0.25,
    price: { class: "C" as const, low: 40000, high: 60000, currency: "EUR" },
  };
  const inputs = {
    ...exampleCostInputs,
    salvageShare: 0.1,
    interest: 0.1,
    years: 5,
    hoursPerYear: 1000,
    labour: 40,
    energyPrice: 0.2,
    auxiliaryPower: 1500,
    consumables: 2,
    filters: 3,
    waste: 1,
    workingTime: 0.5,
  };

  it("adds up by hand: $50,000 is $12,371 a year; 200 W at η 0.25 half the time and 1.5 kW are 1.9 kW", () => {
    const hour = hourlyCost(50000, 200, 0.25, inputs);
    expect(hour.capital).toBeCloseTo(12.371, 3);
    expect(hour.energy).toBeCloseTo(0.38, 12);
    const cost = costPerArea(machine, 200, 2 / 3600, inputs);
    // 2 m²/h half the time is 1 m² per paid hour.
    expect(cost.middle).toBeCloseTo(12.371 + 40 + 0.38 + 6, 3);
    expect(cost.low).toBeCloseTo(cost.middle - 0.2 * hour.capital, 9);
    expect(cost.high).toBeCloseTo(cost.middle + 0.2 * hour.capital, 9);
    expect(cost.breakdown.labour).toBeCloseTo(40, 12);
  });

  it("breaks down into what it adds up to, and falls with the rate", () => {
    const positive = fc.double({ min: 1e-6, max: 1e-2, noNaN: true });
    fc.assert(
      fc.property(positive, positive, (a, b) => {
        const cost = costPerArea(machine, 200, a, inputs);
        const total = Object.values(cost.breakdown).reduce((x, y) => x + y, 0);
        expect(total / cost.middle).toBeCloseTo(1, 12);
        expect(costPerArea(machine, 200, a + b, inputs).middle).toBeLessThan(cost.middle);
      }),
    );
  });

  it("says that its example figures are invented, and when currencies differ", () => {
    expect(costPerArea(machine, 200, 1e-4, exampleCostInputs).note).toBe(
      "invented example figures, replace with your own",
    );
    expect(costPerArea(machine, 200, 1e-4, { ...inputs, currency: "USD" }).note).toContain("not converted");
    expect(() => costPerArea(machine, 200, 1e-4, { ...inputs, labour: -1 })).toThrow("invalid labour: -1 per h");
  });
});
