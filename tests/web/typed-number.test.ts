import { describe, expect, it } from "vitest";
import { readNumber } from "../../src/web/show/typed-number.ts";

const area = { label: "Area", unit: "m²", min: 0, max: 1e6 };
const mm = { label: "Thickness", unit: "mm", min: 0, max: 1000 };

describe("a number as typed into a field", () => {
  it.each([
    ["0.4", 0.4],
    ["0.4 m2", 0.4],
    ["0.4 m²", 0.4],
    ["1,5", 1.5],
    ["1e5", 1e5],
    ["1 000", 1000],
    ["1 000 m²", 1000],
    ["4000 cm2", 0.4],
    ["", null],
  ])("%s reads as %s m²", (text, value) => {
    expect(readNumber(text, area)).toEqual({ value, line: null });
  });

  it("takes another unit of the same kind", () => {
    expect(readNumber("0.5 in", mm).value).toBe(12.7);
    expect(readNumber("212 °F", { label: "Hottest", unit: "°C", min: 30 }).value).toBe(100);
  });

  it.each([
    ["-3", "invalid Area: -3 m² (above 0 to 1000000)"],
    ["0", "invalid Area: 0 m² (above 0 to 1000000)"],
    ["2e6", "invalid Area: 2000000 m² (above 0 to 1000000)"],
    ["1,500", "invalid Area: 1,500 (write a decimal point, not a comma)"],
    ["abc", "invalid Area: abc (must be a number with a unit)"],
    ["2 x", "invalid Area: 2 x (unknown unit; needs an area such as cm2 or m2)"],
  ])("%s is refused whole", (text, line) => {
    expect(readNumber(text, area)).toEqual({ value: null, line });
  });

  it("takes no part of a piece", () => {
    const count = { label: "How many", unit: "", min: 1, max: 1e6, whole: true };
    expect(readNumber("2.5", count).line).toBe("invalid How many: 2.5 (a whole number, from 1 to 1000000)");
    expect(readNumber("many", count).line).toBe("invalid How many: many (must be a number)");
    expect(readNumber("60", count).value).toBe(60);
  });
});
