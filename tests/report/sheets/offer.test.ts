import { buildOffer, type PriceRange } from "#report";
import { describe, expect, it } from "vitest";
import { grouped, roundOut } from "../../../src/report/sheets/money.ts";
import { offerInput } from "./fixture.ts";
import { blockOf, blocksOf } from "./sheet-text.ts";

const price = offerInput.price!;
const offered = (change: Partial<PriceRange>) => buildOffer({ ...offerInput, price: { ...price, ...change } });

describe("offer", () => {
  it("prints a price as a range with its middle, currency, what it is for and what it rests on", () => {
    const sheet = buildOffer(offerInput);
    expect(blockOf(sheet, "price", "banner").words.replaceAll("\u00a0", " ")).toBe(
      "EUR 8 140 to 12 500 (middle EUR 9 870), for the order of 24 pieces, without tax",
    );
    expect(blockOf(sheet, "price", "list").items).toEqual(price.basis);
    const option = blockOf(sheet, "options", "table").rows[0]![2]!;
    expect(option).toMatchObject({ words: expect.stringContaining("8 to 12 minutes a cover") });
    const small = blockOf(
      buildOffer({ ...offerInput, price: { ...price, low: 3.124, middle: null, high: 4.561 } }, "de"),
      "price",
      "banner",
    );
    expect(small.words).toContain("EUR 3,12 bis 4,57, for");
  });

  it("rounds outwards to three figures and leaves whole figures alone", () => {
    for (const [value, way, expected] of [
      [8143, "down", 8140],
      [12456, "up", 12500],
      [12400, "up", 12400],
      [0.29, "down", 0.29],
      [0.29, "up", 0.29],
      [999.5, "up", 1000],
      [999.5, "down", 999],
      [9871, "nearest", 9870],
      [0, "up", 0],
    ] as const)
      expect([value, way, roundOut(value, way)]).toEqual([value, way, expected]);
    expect([999, 1000, 1234567, 1234.5].map((v) => grouped(v).replaceAll("\u00a0", " "))).toEqual([
      "999",
      "1 000",
      "1 234 567",
      "1 234.5",
    ]);
  });

  it("never shows a figure without its spread, its currency, its meaning and its basis", () => {
    expect(() => offered({ high: price.low, middle: null })).toThrow(
      "invalid price: 8143 to 8143 EUR (must have a spread: high above low)",
    );
    expect(() => offered({ low: 9, high: 8 })).toThrow("must have a spread");
    expect(() => offered({ low: -1 })).toThrow("invalid price, low: -1 EUR (must be 0 or above)");
    expect(() => offered({ high: Number.NaN })).toThrow("invalid price, high: not a number EUR");
    expect(() => offered({ middle: 20000 })).toThrow("invalid price, middle: 20000 EUR (must be 8143 to 12456 EUR)");
    expect(() => offered({ currency: " " })).toThrow("invalid price, currency: missing");
    expect(() => offered({ per: "" })).toThrow("invalid price, what it is for: missing");
    expect(() => offered({ basis: [] })).toThrow("invalid price, basis: 0 lines (must say what the figure rests on)");
  });

  it("says 'not worked out' wherever nothing was handed in", () => {
    const empty = { scope: [], assumptions: [], exclusions: [], options: [], validUntil: null, price: null };
    const sheet = buildOffer({ ...offerInput, ...empty });
    for (const id of ["scope", "assumptions", "exclusions", "options", "validity"])
      expect([id, blockOf(sheet, id, "text").words]).toEqual([id, "not worked out"]);
    expect(blockOf(sheet, "price", "banner").words).toBe("not worked out");
    expect(JSON.stringify(blocksOf(sheet))).not.toMatch(/EUR|NaN|null/);
    expect(blockOf(buildOffer(offerInput), "options", "table").rows[1]![2]).toEqual({
      kind: "text",
      words: "not worked out",
    });
  });

  it("carries the cautions and the validity handed in", () => {
    const sheet = buildOffer(offerInput, "de");
    expect(blockOf(sheet, "validity", "text").words).toBe("gültig bis 31 January 2027");
    expect(blockOf(sheet, "cautions", "box")).toMatchObject({ title: "Bedingungen der Arbeit" });
    expect(() => buildOffer({ ...offerInput, cautions: [] })).toThrow("at least one caution");
  });
});
