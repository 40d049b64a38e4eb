import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formatNumber, formatQuantity, formatRange, fromSI, parseNumber, parseQuantity, toSI, unitLabel } from "#units";

describe("units to SI", () => {
  it.each([
    ["um", 1e-6],
    ["µm", 1e-6],
    ["μm", 1e-6],
    ["nm", 1e-9],
    ["cm", 1e-2],
    ["ns", 1e-9],
    ["us", 1e-6],
    ["ms", 1e-3],
    ["min", 60],
    ["h", 3600],
    ["kHz", 1e3],
    ["MHz", 1e6],
    ["kW", 1e3],
    ["mJ", 1e-3],
    ["J/cm2", 1e4],
    ["J/cm²", 1e4],
    ["J cm⁻²", 1e4],
    ["J·cm^-2", 1e4],
    ["W/cm2", 1e4],
    ["W/mm²", 1e6],
    ["mm/s", 1e-3],
    ["m2/h", 1 / 3600],
    ["cm2/s", 1e-4],
    ["MPa", 1e6],
    ["GPa", 1e9],
    ["kg/m3", 1],
    ["g/cm3", 1000],
    ["W/(m·K)", 1],
    ["W / (cm K)", 100],
    ["kJ/(kg·K)", 1e3],
    ["kJ/mol", 1e3],
    ["1/cm", 100],
    ["1/degC", 1],
    ["%", 0.01],
    ["mrad", 1e-3],
    ["deg", Math.PI / 180],
    ["ppm", 1e-6],
    ["t", 1000],
    ["mg", 1e-6],
    ["d", 86400],
    ["mV", 1e-3],
    ["kA", 1e3],
    ["kN", 1e3],
    ["bar", 1e5],
    ["l/min", 1e-3 / 60],
    ["in", 0.0254],
    ["ft/min", 0.00508],
    ["mil", 25.4e-6],
    ["ha", 1e4],
    ["hPa", 100],
    ["kWh/m2", 3.6e6],
    ["kWh", 3.6e6],
    ["", 1],
  ])("one %s", (unit, si) => {
    expect(toSI(1, unit)).toBeCloseTo(si, 14 - Math.ceil(Math.log10(si)));
    expect(toSI(1, unit) / si).toBeCloseTo(1, 12);
  });

  it("takes degC as a point on a scale, and as a difference inside a product", () => {
    expect(toSI(25, "degC")).toBe(298.15);
    expect(fromSI(298.15, "°C")).toBe(25);
    expect(toSI(25, "K")).toBe(25);
    expect(toSI(3, "W/(m·degC)")).toBe(3);
  });

  it("gives the number that would be written by hand", () => {
    expect(toSI(35, "um")).toBe(35e-6);
    expect(toSI(120, "ns")).toBe(120e-9);
    expect(fromSI(35e-6, "um")).toBe(35);
  });

  it.each(["bananas", "kdegC", "um/", "/s", "m/(s", "m)", "um2m2m2x", "mum", "MM"])("refuses the unit %s", (unit) => {
    expect(() => toSI(1, unit)).toThrow(`invalid unit: ${unit} (is not a known unit)`);
  });

  it("comes back from SI unchanged", () => {
    const units = ["um", "ns", "kHz", "J/cm2", "W/mm2", "m2/h", "degC", "GPa", "%", "kJ/mol", "in"];
    fc.assert(
      fc.property(fc.constantFrom(...units), fc.double({ min: -1e6, max: 1e6, noNaN: true }), (unit, value) => {
        expect(Math.abs(fromSI(toSI(value, unit), unit) - value)).toBeLessThanOrEqual(1e-9 + 1e-13 * Math.abs(value));
      }),
    );
  });
});

describe("quantities from text", () => {
  it.each([
    ["35 um", "um", 35e-6],
    ["35µm", "mm", 35e-6],
    ["  0.035 mm ", "um", 35e-6],
    ["35", "um", 35e-6],
    [35, "um", 35e-6],
    ["1.2e2 ns", "ns", 120e-9],
    ["−10 degC", "K", 263.15],
    ["25 degC", "degC", 298.15],
    [".5 %", "", 0.005],
  ])("%s as %s", (text, unit, si) => {
    expect(parseQuantity(text, unit, "x")).toBeCloseTo(si, 15);
  });

  it.each([
    ["35 s", "um", "invalid thickness: 35 s (needs a length such as um or mm)"],
    ["3,5 um", "um", "invalid thickness: 3,5 um (write a decimal point, not a comma)"],
    ["12 bananas", "um", "invalid thickness: 12 bananas (unknown unit; needs a length such as um or mm)"],
    ["thick", "um", "invalid thickness: thick (must be a number with a unit)"],
    ["", "um", "invalid thickness: missing (needs a length such as um or mm)"],
    [undefined, "um", "invalid thickness: missing (needs a length such as um or mm)"],
    [Number.NaN, "um", "invalid thickness: not a number um (must be a finite number)"],
    ["1e999 um", "um", "invalid thickness: 1e999 um (must be a finite number)"],
    ["0x10 um", "um", "invalid thickness: 0x10 um (unknown unit; needs a length such as um or mm)"],
    ["3 J/cm", "J/cm2", "invalid thickness: 3 J/cm (needs a fluence such as J/cm2)"],
    ["5 K", "s", "invalid thickness: 5 K (needs a time such as ns, ms or s)"],
  ])("refuses %s for %s", (text, unit, message) => {
    expect(() => parseQuantity(text, unit, "thickness")).toThrow(message);
  });

  it("gives a finite number or a refusal, whatever the text", () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.double().map((x) => `${x} um`),
        ),
        (text) => {
          let value = 0;
          try {
            value = parseQuantity(text, "um", "x");
          } catch (error) {
            expect((error as Error).message).toMatch(/^invalid x: .* \(.*\)$/s);
            expect((error as Error).name).toBe("InvalidInput");
          }
          expect(Number.isFinite(value)).toBe(true);
        },
      ),
    );
  });

  it.each(["1,5", "", "abc", "1.2.3", "NaN", "Infinity", "0x10", "1e999", "5 W"])("refuses the number %s", (text) => {
    expect(() => parseNumber(text, "power", "W")).toThrow(/^invalid power: /);
  });

  it("reads plain numbers", () => {
    expect(parseNumber(" +1.5e-3 ", "x")).toBe(0.0015);
    expect(parseNumber("−2", "x")).toBe(-2);
  });
});

describe("quantities as text", () => {
  it.each([
    [35e-6, "um", "35 µm"],
    [18e4, "J/cm2", "18 J/cm²"],
    [1811, "K", "1811 K"],
    [300, "degC", "26.9 °C"],
    [0.5, "%", "50 %"],
    [1234.5678, "", "1235"],
    [0, "W", "0 W"],
    [-0.25, "mm", "−250 mm"],
    [3e-12, "m", "3×10⁻¹² m"],
    [null, "um", "–"],
    [undefined, "um", "–"],
    [Number.NaN, "um", "–"],
    [-Infinity, "degC", "–"],
  ])("%s as %s", (value, unit, text) => {
    expect(formatQuantity(value, unit)).toBe(text);
  });

  it("rounds to the digits asked for", () => {
    expect(formatNumber(0.0123456, 2)).toBe("0.012");
    expect(formatNumber(99.97)).toBe("100");
    expect(formatNumber(9.996)).toBe("10");
    expect(formatNumber(123456789)).toBe("1.23×10⁸");
    expect(formatRange(20e-6, 45e-6, "um")).toBe("20 to 45 µm");
  });

  it("sets units in print", () => {
    expect(unitLabel("W/(m*K)")).toBe("W/(m·K)");
    expect(unitLabel("m^-1")).toBe("m⁻¹");
    expect(unitLabel("1/m2")).toBe("1/m²");
  });

  it("never prints a value that is no number", () => {
    fc.assert(
      fc.property(fc.double(), fc.integer({ min: 1, max: 8 }), (value, digits) => {
        expect(formatQuantity(value, "um", digits)).not.toMatch(/NaN|Infinity/);
      }),
    );
  });
});
