import { defaultSetting } from "#beam";
import {
  type CostCase,
  costFigureWords,
  costCaseOf,
  costPerArea,
  costSensitivity,
  costSpread,
  exampleCostInputs,
  exampleCostRanges,
  jobCost,
  jobTimeRange,
  laserMoney,
  orderHours,
  requireCurrency,
  scanRate,
  scanTaskOf,
} from "#cost";
import { setup } from "#library";
import { describe, expect, it } from "vitest";

const inputs = {
  ...exampleCostInputs,
  interest: 0.1,
  years: 5,
  hoursPerYear: 1000,
  labour: 40,
  energyPrice: 0.2,
  auxiliaryPower: 1500,
  consumables: 2,
  filters: 3,
  waste: 1,
};
/** 10 h for 20 m² in 40 parts, half of the time with the beam on. */
const given: CostCase = {
  price: 50000,
  meanPower: 200,
  wallPlugEfficiency: 0.25,
  inputs,
  work: {
    area: 20,
    count: 40,
    total: 36000,
    time: { beam: 18000, turns: 6000, steps: 0, waits: 0, pauses: 0, handling: 12000, preparation: 0 },
  },
};

describe("cost of an order", () => {
  it("adds up by hand: $12,371 a year over 1,000 h, 0.4 + 1.5 kW at 0.2, 10 h, 3 by area", () => {
    const cost = jobCost({ ...given, inputs: { ...inputs, wastePerArea: 3 } });
    expect(cost.spent.capital).toBeCloseTo(123.71, 2);
    expect(cost.spent.labour).toBe(400);
    expect(cost.spent.energy).toBeCloseTo(1.9 * 10 * 0.2, 12);
    expect(cost.spent.waste).toBeCloseTo(10 + 60, 12);
    expect(cost.total).toBeCloseTo(123.71 + 400 + 3.8 + 20 + 30 + 70, 2);
    expect(cost.perArea).toBeCloseTo(cost.total / 20, 12);
    expect(cost.perPart).toBeCloseTo(cost.total / 40, 12);
    expect(cost.runningPerArea).toBeCloseTo((cost.total - cost.spent.capital) / 20, 12);
    expect(cost.currency).toBe("EUR");
    expect(cost.note).toContain("invented example figures");
  });

  it("is costPerArea where beam time is all that the share of time at work knows of", () => {
    const machine = {
      ...setup("pulsed-200"),
      wallPlugEfficiency: 0.25,
      price: { class: "C" as const, low: 50000, high: 50000, currency: "EUR" },
    };
    const figures = { ...inputs, workingTime: 0.5, wastePerArea: 0.7 };
    const flat = costPerArea(machine, 200, 20 / 18000, figures);
    const cost = jobCost({ ...given, inputs: figures });
    expect(cost.perArea).toBeCloseTo(flat.middle, 10);
    expect(cost.spent.waste / 20).toBeCloseTo(flat.breakdown.waste, 12);
    expect(flat.low).toBe(flat.middle);
  });

  it.each([
    [{ hoursPerYear: 0 }, "invalid hours per year: 0 h (must be above 0)"],
    [{ labour: -1 }, "invalid labour: -1 per h (must be 0 or above)"],
    [{ energyPrice: -0.1 }, "invalid energy price: -0.1 per kWh (must be 0 or above)"],
    [{ consumables: -2 }, "invalid consumables: -2 per h (must be 0 or above)"],
    [{ filters: -2 }, "invalid filters: -2 per h (must be 0 or above)"],
    [{ waste: -2 }, "invalid waste: -2 per h (must be 0 or above)"],
    [{ wastePerArea: -2 }, "invalid waste: -2 per m2 (must be 0 or above)"],
    [{ auxiliaryPower: -2 }, "invalid auxiliary power: -2 W (must be 0 or above)"],
    [{ salvageShare: 1.1 }, "invalid salvage share: 1.1 (must be 0 to 1)"],
    [{ interest: -0.1 }, "invalid interest: -0.1 a year (must be 0 or above)"],
    [{ years: 0 }, "invalid years: 0 (must be a whole number, 1 to 100)"],
    [{ currency: "euro" }, "invalid currency: euro (must be three capital letters, such as EUR)"],
    [{ labour: Number.NaN }, "invalid labour: not a number per h (must be a finite number)"],
  ])("refuses %o in one line", (change, line) => {
    expect(() => jobCost({ ...given, inputs: { ...inputs, ...change } })).toThrow(line);
    expect(() => costPerArea(setup("pulsed-200"), 200, 1e-4, { ...inputs, ...change })).toThrow(line);
  });

  it("refuses an order of no time, no area or no parts", () => {
    const work = (change: object) => () => jobCost({ ...given, work: { ...given.work, ...change } });
    expect(work({ total: 0 })).toThrow("invalid time of the order: 0 s (must be above 0)");
    expect(work({ area: 0 })).toThrow("invalid area: 0 m2 (must be above 0)");
    expect(work({ count: 0 })).toThrow("invalid count: 0 (must be a whole number, 1 or more)");
  });

  it("refuses a negative price, light from nothing and a currency that is none", () => {
    expect(() => jobCost({ ...given, price: -1 })).toThrow("invalid price: -1 (must be 0 or above)");
    expect(() => jobCost({ ...given, wallPlugEfficiency: 1.2 })).toThrow(
      "invalid wall-plug efficiency: 1.2 (above 0 and up to 1)",
    );
    for (const text of ["", "eur", "EURO", null, 3]) expect(() => requireCurrency(text)).toThrow("invalid currency");
    expect(requireCurrency("USD")).toBe("USD");
  });
});

describe("from a set-up to money", () => {
  const machine = setup("pulsed-200");
  const task = {
    ...scanTaskOf(machine, defaultSetting(machine), { width: 0.1, height: 0.1, count: 50 }),
    handling: 30,
  };
  const work = scanRate(task);

  it("takes the middle of the price range and says when it is in another currency", () => {
    const found = costCaseOf(machine, 150, inputs, work);
    expect(found.price).toBe((machine.price.low + machine.price.high) / 2);
    expect(found.inputs.note).toBe(inputs.note);
    expect(jobCost(costCaseOf(machine, 150, { ...inputs, currency: "USD" }, work)).note).toContain("not converted");
  });

  it("splits the year's money into capital and what each square metre costs: both together are the order's cost", () => {
    const found = costCaseOf(machine, 150, inputs, work);
    const money = laserMoney(found);
    // A year full of such orders: capital by the year or by the hour is the same.
    const most = money.areaPerYearMost!;
    expect(most).toBeCloseTo((inputs.hoursPerYear / work.hours) * work.area, 6);
    expect(money.costPerYear / most + money.costPerArea).toBeCloseTo(jobCost(found).perArea, 9);
    expect(money).toMatchObject({ currency: "EUR", price: found.price, interest: inputs.interest });
  });

  it("carries the spread of the hours into the cost", () => {
    const hours = orderHours(scanRate, task, { handling: { low: 15, high: 60 } });
    const range = jobTimeRange(hours, work);
    expect(range.low).toBeCloseTo(hours.low / work.hours, 12);
    expect(range.high).toBeGreaterThan(1);
    const spread = costSpread(costCaseOf(machine, 150, inputs, work), { jobTime: range });
    expect(spread.total.high / spread.total.low).toBeCloseTo(hours.high / hours.low, 2);
    expect(jobTimeRange({ ...hours, low: work.hours * 1.1 }, work).low).toBe(1);
  });
});

describe("spread and sensitivity of the cost", () => {
  const ranges = { ...exampleCostRanges, labour: { low: 30, high: 55 }, price: { low: 40000, high: 65000 } };

  it("holds the middle, and a part costs what its area does", () => {
    const middle = jobCost(given).perArea;
    const spread = costSpread(given, ranges);
    expect(spread.perArea.low).toBeLessThan(middle);
    expect(spread.perArea.high).toBeGreaterThan(middle);
    expect(spread.perPart.high).toBeCloseTo(spread.perArea.high / 2, 12);
    expect(spread.total.low).toBeCloseTo(spread.perArea.low * 20, 12);
    expect(costSpread(given, {}).perArea).toMatchObject({ low: middle, middle, high: middle });
  });

  it("moves one figure at a time: labour from 30 to 55 is 12.50 per m² at half an hour each", () => {
    const { middle, rows } = costSensitivity(given, ranges);
    expect(middle).toBeCloseTo(jobCost(given).perArea, 12);
    const row = (name: string) => rows.find((r) => r.name === name)!;
    expect(row("labour").swing).toBeCloseTo(12.5, 9);
    expect(row("jobTime").resultAtHigh).toBeCloseTo(1.4 * middle, 9);
    // More hours a year make each of them cheaper.
    expect(row("hoursPerYear").resultAtHigh).toBeLessThan(row("hoursPerYear").resultAtLow);
    expect(rows.map((r) => r.swing)).toEqual([...rows.map((r) => r.swing)].sort((a, b) => b - a));
    for (const { name } of rows) expect(costFigureWords).toHaveProperty(name);
  });

  it("stays within the swings taken together", () => {
    const { middle, rows } = costSensitivity(given, ranges);
    const spread = costSpread(given, ranges).perArea;
    const up = rows.reduce((s, r) => s + Math.max(r.resultAtLow, r.resultAtHigh) - middle, 0);
    expect(spread.high - middle).toBeLessThan(up);
    expect(spread.high - middle).toBeGreaterThan(0.5 * rows[0]!.swing * 0.5);
  });

  it("refuses a range that does not hold its figure", () => {
    expect(() => costSpread(given, { labour: { low: 45, high: 55 } })).toThrow(
      "invalid low end of labour: 45 (must not be above the middle)",
    );
    expect(() => costSensitivity(given, { wallPlugEfficiency: { low: 0.2, high: 1.5 } })).toThrow(
      "invalid high end of wallPlugEfficiency: 1.5 (must be 1 at most)",
    );
  });
});
