import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseShop, shopSchema, validate } from "#contract";
import { figuresOf } from "../../src/web/steps/economy/figures-of.ts";
import { shopGroups, shopRanges } from "../../src/web/steps/economy/shop-fields.ts";
import { checkShop, shopDocOf, typedOf } from "../../src/web/steps/economy/shop-text.ts";

describe("the fields of the shop's figures", () => {
  it("say a file of the published shape, and come back from it", () => {
    const typed = {
      note: "books of 2025",
      currency: "CHF",
      labour_per_h: "72,5",
      handling_s: "3 min",
      years: "5",
      "otherMethod.cost_per_m2": "40",
      "ranges.labour_per_h.0": "60",
      "ranges.labour_per_h.1": "90",
    };
    const { shop, errors } = checkShop(typed);
    expect(errors).toBeNull();
    expect(shop).toEqual({
      note: "books of 2025",
      currency: "CHF",
      labour_per_h: 72.5,
      handling_s: 180,
      years: 5,
      otherMethod: { name: "", cost_per_m2: 40, cost_per_year: null },
      ranges: { labour_per_h: [60, 90] },
    });
    expect(checkShop(typedOf(shop!)).shop).toEqual(shop);
    expect(parseShop(shop).inputs.labour).toBe(72.5);
  });

  it("survive being kept and opened again, whichever of them are filled", () => {
    const groups = shopGroups("EUR").flatMap((g) => g.fields.filter((f) => f.kind === "number"));
    const filled = fc.subarray(groups.map((f) => f.path));
    fc.assert(
      fc.property(filled, fc.integer({ min: 1, max: 50 }), (paths, n) => {
        const { shop } = checkShop(Object.fromEntries(paths.map((p) => [p, String(n)])));
        expect(shop).not.toBeNull();
        expect(validate(shopSchema, shopDocOf(typedOf(shop!)), "shop")).toEqual(shop);
      }),
    );
  });

  it("each name a place of the published file", () => {
    for (const { path } of shopGroups("EUR").flatMap((g) => g.fields))
      expect(checkShop({ [path]: path === "otherMethod.name" ? "x" : "1" }).errors, path).toBeNull();
    for (const { name } of shopRanges("EUR"))
      expect(checkShop({ [`ranges.${name}.0`]: "0.0001", [`ranges.${name}.1`]: "100000" }).errors, name).toBeNull();
  });

  it("are refused beside the field that does not fit, all at once", () => {
    const { shop, errors } = checkShop({
      labour_per_h: "much",
      waste_per_h: "-2",
      handling_s: "3 m2",
      interest_percent: "120",
      energy_per_kWh: "1,200",
      "otherMethod.cost_per_year": "-1",
    });
    expect(shop).toBeNull();
    expect(errors).toEqual({
      labour_per_h: "invalid labour_per_h: much (must be a number)",
      waste_per_h: "invalid waste_per_h: -2 (must be at least 0)",
      handling_s: expect.stringMatching(/^invalid handling_s: 3 m2 \(/),
      interest_percent: "invalid interest_percent: 120 % (must be at most 100 %)",
      energy_per_kWh: "invalid energy_per_kWh: 1,200 (must be a number)",
      "otherMethod.cost_per_year": "invalid otherMethod.cost_per_year: -1 (must be at least 0)",
    });
    expect(checkShop({ currency: "euros" }).errors).toEqual({
      currency: expect.stringMatching(/^invalid currency: euros \(/),
    });
  });

  it("want both ends of a range, and the figure between them", () => {
    expect(checkShop({ "ranges.labour_per_h.0": "40" }).errors).toEqual({
      "ranges.labour_per_h": "invalid range of labour_per_h: 40 to nothing (needs both ends or neither)",
    });
    const off = checkShop({ labour_per_h: "50", "ranges.labour_per_h.0": "60", "ranges.labour_per_h.1": "70" });
    expect(off.errors).toEqual({
      "ranges.labour_per_h": "invalid range of labour: 60 to 70 (must hold the figure itself, 50)",
    });
    const energy = checkShop({ "ranges.energy_per_kWh.0": "1", "ranges.energy_per_kWh.1": "2" });
    expect(Object.keys(energy.errors ?? {})).toEqual(["ranges.energy_per_kWh"]);
  });

  it("suggest nothing of another method, and count what is invented", () => {
    const other = shopGroups("EUR")
      .flatMap((g) => g.fields)
      .filter((f) => f.path.startsWith("otherMethod"));
    expect(other.map((f) => f.example)).toEqual([null, null, null]);
    const all = figuresOf({});
    expect(all.own).toBe(0);
    expect(figuresOf({ labour_per_h: "50", "otherMethod.name": "blasting" })).toEqual({
      own: 1,
      missing: all.missing - 1,
    });
  });
});
