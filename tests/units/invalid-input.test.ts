import { describe, expect, it } from "vitest";
import {
  InvalidInput,
  invalid,
  invalidLine,
  requireFinite,
  requireInRange,
  requireInteger,
  requireNonNegative,
  requireOneOf,
  requirePositive,
  requireShare,
  requireText,
  withPlace,
} from "#units";

function refusal(run: () => unknown): InvalidInput {
  try {
    run();
  } catch (error) {
    if (error instanceof InvalidInput) return error;
    throw error;
  }
  throw new Error("nothing was refused");
}

describe("refused input", () => {
  it("reads as one line: name, value, unit, rule", () => {
    const error = refusal(() => invalid("speed", -3, "mm/s", "must be above 0"));
    expect(error.message).toBe("invalid speed: -3 mm/s (must be above 0)");
    expect([error.field, error.value, error.unit, error.rule]).toEqual(["speed", "-3", "mm/s", "must be above 0"]);
  });

  it("keeps its form without a unit and with a place", () => {
    const error = refusal(() => invalid("laser", "x", "", "is not known"));
    expect(error.message).toBe("invalid laser: x (is not known)");
    expect(error.where).toBeNull();
    expect(invalidLine(withPlace(error, "line 12"))).toBe("line 12: invalid laser: x (is not known)");
    expect(invalidLine(error)).toBe("invalid laser: x (is not known)");
  });

  it.each([
    [Number.NaN, "not a number"],
    [Infinity, "infinite"],
    [-Infinity, "minus infinite"],
    [undefined, "missing"],
    [null, "missing"],
    ["", "missing"],
    [{ a: 1 }, "an object"],
    ["two\nlines\u2028here", "two lines here"],
  ])("shows %s as words", (value, shown) => {
    const { message } = refusal(() => invalid("power", value, "W", "rule"));
    expect(message).toBe(`invalid power: ${shown} W (rule)`);
    expect(message).not.toMatch(/NaN|Infinity|undefined|null/);
  });

  it("shortens long values", () => {
    expect(refusal(() => invalid("name", "a".repeat(10_000), "", "rule")).message.length).toBeLessThan(100);
  });
});

describe("guards", () => {
  it("hand back what they accept", () => {
    expect(requireFinite("x", -2.5)).toBe(-2.5);
    expect(requirePositive("x", 1e-300)).toBe(1e-300);
    expect(requireNonNegative("x", 0)).toBe(0);
    expect(requireInRange("x", 5, "W", 0, 5)).toBe(5);
    expect(requireInRange("x", 0, "W", 0, 5)).toBe(0);
    expect(requireShare("x", 1)).toBe(1);
    expect(requireInteger("x", 3, 1, 3)).toBe(3);
    expect(requireOneOf("face", "flat", ["flat", "edge"])).toBe("flat");
    expect(requireText("note", " a ")).toBe(" a ");
  });

  it.each([
    [() => requireFinite("x", "5", "W"), "invalid x: 5 W (must be a finite number)"],
    [() => requireFinite("x", Number.NaN, "W"), "invalid x: not a number W (must be a finite number)"],
    [() => requirePositive("x", 0, "W"), "invalid x: 0 W (must be above 0)"],
    [() => requireNonNegative("x", -1e-9, "m"), "invalid x: -1e-9 m (must be 0 or above)"],
    [() => requireInRange("x", 6, "W", 0, 5), "invalid x: 6 W (must be 0 to 5 W)"],
    [() => requireInRange("x", -1, "W", 0, 5), "invalid x: -1 W (must be 0 to 5 W)"],
    [() => requireShare("x", 1.01), "invalid x: 1.01 (must be 0 to 1)"],
    [() => requireInteger("passes", 2.5, 1), "invalid passes: 2.5 (must be a whole number)"],
    [() => requireInteger("passes", 0, 1), "invalid passes: 0 (must be a whole number, 1 or more)"],
    [() => requireInteger("passes", 9, 1, 8), "invalid passes: 9 (must be a whole number, 1 to 8)"],
    [() => requireOneOf("face", "round", ["flat", "edge"]), "invalid face: round (must be one of flat, edge)"],
    [() => requireText("note", "  "), "invalid note: missing (must be text)"],
    [() => requireText("note", "abc", 2), "invalid note: abc (must have at most 2 characters)"],
  ])("refuse with the rule %#", (run, message) => {
    expect(refusal(run).message).toBe(message);
  });
});
