import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  CARBON_SUBLIMATION,
  charBurnt,
  charHeat,
  charShattered,
  charSublimated,
  charYield,
  GAS_CONSTANT,
} from "#removal";

/** Evenly over a range: doubles as the library draws them are mostly next to nothing. */
const evenly = (low: number, high: number) =>
  fc.integer({ min: 0, max: 1e6 }).map((i) => low + ((high - low) * i) / 1e6);

/** Reaction without delay, so that only the supply of oxygen counts. */
const atOnce = { preExponential: 1e30, activationEnergy: 0 };
// v = 7e-5·ln(1 + 0.232·12/16)/(100 µm·150 kg/m³) = 7e-5·0.160417/0.015 = 7.486e-4 m/s; 10 µm of char: 13.358 ms.
const [thick, density, radius, supplied] = [10e-6, 150, 100e-6, 13.358e-3] as const;

describe("char that is left", () => {
  it("is half at 10 µs, three quarters at 30 µs, next to none after a nanosecond, all after a second", () => {
    expect(charYield(10e-6)).toBeCloseTo(0.5, 12);
    expect(charYield(30e-6)).toBeCloseTo(0.75, 12);
    expect(charYield(1e-9)).toBeCloseTo(1e-4, 7);
    expect(charYield(1)).toBeCloseTo(1, 4);
  });
});

describe("burning off", () => {
  it("lets 1 − 1/e go while air brings oxygen for all of it, half as fast where the reaction takes as long again", () => {
    expect(charBurnt(atOnce, 1500, supplied, thick, density, radius)).toBeCloseTo(1 - Math.exp(-1), 4);
    const asSlow = { preExponential: 1 / supplied, activationEnergy: 0 };
    expect(charBurnt(asSlow, 1500, supplied, thick, density, radius)).toBeCloseTo(1 - Math.exp(-0.5), 4);
  });

  it("goes by the reaction alone where air is plenty: E/R·(1/T) by hand", () => {
    // k = 3e7·exp(−160000/(8.314463·1000)) = 3e7·4.3916e-9 = 0.13175 1/s; a film of 1 nm
    const kinetics = { preExponential: 3e7, activationEnergy: 160e3 };
    const rate = 0.131747;
    expect(charBurnt(kinetics, 1000, 5, 1e-9, density, radius)).toBeCloseTo(1 - Math.exp(-5 * rate), 4);
    expect(rate / (3e7 * Math.exp(-160e3 / (GAS_CONSTANT * 1000)))).toBeCloseTo(1, 4);
  });

  it("is nothing below two thousandths of the supply, and begins there at two thousandths", () => {
    expect(charBurnt(atOnce, 3000, 1.99e-3 * supplied, thick, density, radius)).toBe(0);
    expect(charBurnt(atOnce, 3000, 2.01e-3 * supplied, thick, density, radius)).toBeCloseTo(2.008e-3, 5);
    expect(charBurnt(atOnce, 3000, 0, thick, density, radius)).toBe(0);
    expect(charBurnt(atOnce, 3000, 1e3, thick, density, radius)).toBe(1);
  });

  it("is slower under a wide spot, for dense and for thick char in proportion, and quicker when hot", () => {
    const long = { preExponential: 3e7, activationEnergy: 160e3 };
    const own = (k: typeof long, t: number, time: number, q: number, d: number, w: number) =>
      -Math.log(1 - charBurnt(k, t, time, q, d, w));
    const one = own(atOnce, 1500, supplied, thick, density, radius);
    expect(own(atOnce, 1500, supplied, 2 * thick, density, radius)).toBeCloseTo(one / 2, 9);
    expect(own(atOnce, 1500, supplied, thick, 2 * density, radius)).toBeCloseTo(one / 2, 9);
    expect(own(atOnce, 1500, supplied, thick, density, 2 * radius)).toBeCloseTo(one / 2, 9);
    fc.assert(
      fc.property(evenly(500, 3800), evenly(1e-3, 1), (t, time) => {
        const burnt = charBurnt(long, t, time, thick, density, radius);
        expect(burnt).toBeGreaterThanOrEqual(0);
        expect(charBurnt(long, t + 50, time, thick, density, radius)).toBeGreaterThanOrEqual(burnt);
        expect(charBurnt(long, t, 1.2 * time, thick, density, radius)).toBeGreaterThanOrEqual(burnt);
        // in series: never more than either alone would let go
        const rate = long.preExponential * Math.exp(-long.activationEnergy / (GAS_CONSTANT * t));
        expect(burnt).toBeLessThanOrEqual(-Math.expm1(-rate * time) + 1e-12);
        expect(burnt).toBeLessThanOrEqual(charBurnt(atOnce, t, time, thick, density, radius) + 1e-12);
      }),
    );
  });
});

describe("subliming and shattering", () => {
  it("takes the heat above 3915 K at 30 MJ/kg: 1500 K of 2 kJ/(kg·K) are a tenth", () => {
    expect(CARBON_SUBLIMATION).toBe(3915);
    expect(charSublimated(3915)).toBe(0);
    expect(charSublimated(300)).toBe(0);
    expect(charSublimated(5415)).toBeCloseTo(0.1, 12);
    expect(charSublimated(3915 + 15000)).toBe(1);
    expect(charSublimated(1e6)).toBe(1);
  });

  it("needs 2000·(3915 − T) + 30e6 J/kg: 37.24 MJ/kg from the shop, and the books of heat are even", () => {
    expect(charHeat(293.15)).toBeCloseTo(37.2437e6, -1);
    expect(charHeat(3915)).toBe(30e6);
    // Heat that would bring it to the temperature at which all has gone is the heat that it takes.
    expect(2000 * (3915 + 15000 - 400)).toBeCloseTo(charHeat(400), 6);
  });

  it("shatters half at 1 µs, nearly all at 1 ns, nothing under a slow beam", () => {
    expect(charShattered(1e-6)).toBeCloseTo(0.5, 12);
    expect(charShattered(3e-6)).toBeCloseTo(0.25, 12);
    expect(charShattered(1e-9)).toBeCloseTo(0.999, 5);
    expect(charShattered(1e-2)).toBeLessThan(1.01e-4);
  });
});
