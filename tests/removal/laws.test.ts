import { describe, expect, it } from "vitest";
import {
  conversionTemperature,
  filmFactor,
  GAS_CONSTANT,
  INTERFACE_REFERENCE_TIME,
  interfaceGasStrength,
  interfaceGasTemperature,
  oxideGrowthSquared,
  reactionTime,
  remainingLayers,
  residueThickness,
  stressHeld,
  stressStrength,
  stripOf,
  ventingFactor,
  ventLength,
} from "#removal";
import { sampleOf } from "./samples.ts";

describe("conversion temperature", () => {
  // Acrylic kinetics 188 kJ/mol, 8.5e12 1/s (Stoliarov et al. 2009, from memory), 63 % converted: −ln(1 − X) = 1.
  const converted = 1 - Math.exp(-1);
  it.each([
    [60, 668],
    [1e-3, 989],
    [100e-9, 1656],
  ])("of acrylic held for %d s is %d K", (time, expected) => {
    expect(conversionTemperature(8.5e12, 188e3, time, converted)).toBeCloseTo(expected, -0.5);
    expect(Math.round(conversionTemperature(8.5e12, 188e3, time, converted))).toBe(expected);
  });

  it("gives back the conversion asked for", () => {
    for (const share of [0.1, 0.5, 0.9]) {
      const temperature = conversionTemperature(1e13, 150e3, 2e-6, share);
      const done = 1 - Math.exp(-1e13 * 2e-6 * Math.exp(-150e3 / (GAS_CONSTANT * temperature)));
      expect(done).toBeCloseTo(share, 10);
    }
  });

  it("has no answer where the reaction cannot be that quick", () => {
    expect(conversionTemperature(1e6, 100e3, 1e-7)).toBe(Number.POSITIVE_INFINITY);
  });
});

describe("gas at the interface", () => {
  it("is the reference temperature at the reference time", () => {
    expect(interfaceGasTemperature(950, 120e3, INTERFACE_REFERENCE_TIME)).toBeCloseTo(950, 9);
  });

  it("asks for a higher temperature as time shortens", () => {
    const times = [1e-9, 10e-9, 100e-9, 1e-6, 1e-3, 1];
    const temperatures = times.map((t) => interfaceGasTemperature(950, 120e3, t));
    for (let i = 1; i < times.length; i++) expect(temperatures[i]).toBeLessThan(temperatures[i - 1] as number);
    // 1/T = 1/950 + (8.314463/120000)·ln(10), by hand: 824.97 K.
    expect(temperatures[3]).toBeCloseTo(824.97, 1);
  });

  it("has a strength that is nought exactly at that temperature, whatever the need", () => {
    for (const time of [10e-9, 3e-7, 1e-4]) {
      for (const need of [0.5, 1, 4]) {
        const temperature = interfaceGasTemperature(900, 100e3, time, need);
        expect(interfaceGasStrength(900, 100e3, time, temperature, need)).toBeCloseTo(0, 9);
        expect(interfaceGasStrength(900, 100e3, time, temperature * 1.05, need)).toBeGreaterThan(0);
      }
    }
  });

  it("doubles its strength when it lasts twice as long, and loses ln(need)", () => {
    const one = interfaceGasStrength(900, 100e3, 1e-7, 1000);
    expect(interfaceGasStrength(900, 100e3, 2e-7, 1000) - one).toBeCloseTo(Math.LN2, 12);
    expect(interfaceGasStrength(900, 100e3, 1e-7, 1000, 3) - one).toBeCloseTo(-Math.log(3), 12);
  });

  it("is never reached where no temperature is high enough", () => {
    expect(interfaceGasTemperature(1600, 80e3, 1e-15)).toBe(Number.POSITIVE_INFINITY);
  });
});

describe("what holds a film", () => {
  it("a thick film under a small spot is held by its rim", () => {
    // 1 + 2·50 µm·20 MPa/(100 µm·5 MPa) = 5
    expect(filmFactor(50e-6, 20e6, 100e-6, 5e6)).toBeCloseTo(5, 12);
    expect(filmFactor(1e-9, 20e6, 1e-3, 5e6)).toBeCloseTo(1, 4);
  });

  it("gas leaks to the rim under a cold stiff film and just through a hot soft one", () => {
    expect(ventLength(150e-6, 30e-6, 293)).toBeGreaterThan(0.97 * 150e-6);
    expect(ventLength(150e-6, 30e-6, 900)).toBeCloseTo(30e-6, 7);
    expect(ventLength(150e-6, 30e-6, 470)).toBeCloseTo(90e-6, 12);
    expect(ventLength(20e-6, 30e-6, 293)).toBeCloseTo(30e-6, 12);
  });

  it("a short pulse shuts the gas in, a slow pass lets it go", () => {
    expect(ventingFactor(30e-9, 100e-6)).toBeCloseTo(1.1272, 4);
    expect(ventingFactor(1e-3, 100e-6)).toBeCloseTo(4241, 6);
  });

  it("venting cancels what a longer time would give, once it is long", () => {
    const strength = (t: number) => interfaceGasStrength(900, 100e3, t, 1000, ventingFactor(t, 50e-6));
    expect(strength(1e-3) - strength(1e-4)).toBeLessThan(0.01);
    expect(strength(1e-8) - strength(1e-9)).toBeGreaterThan(2.2);
  });
});

describe("thermal stress", () => {
  it("is E·Δα·ΔT/(1 − ν) over the adhesion", () => {
    // 200 GPa · 5e-6 · 300 K/(1 − 0.25) = 400 MPa over 40 MPa
    expect(stressStrength(200e9, -5e-6, 300, 0.25, 40e6)).toBeCloseTo(Math.log(10), 12);
    expect(stressStrength(200e9, 5e-6, 0, 0.25, 40e6)).toBe(Number.NEGATIVE_INFINITY);
  });

  it("is held by a short pulse and relieved in a long one", () => {
    expect(stressHeld(20e-9)).toBeCloseTo(0, 1);
    expect(stressHeld(2e-6)).toBeCloseTo(-Math.LN2, 12);
    expect(stressHeld(40e-6)).toBeLessThan(-3);
  });
});

describe("oxide growth", () => {
  // Iron 700-1250 °C: k_p = 6.1·exp(−169452/RT) cm²/s (Chen and Yuen, Oxid. Met. 59 (2003) 433, from memory).
  const iron = { preExponential: 6.1e-4, activationEnergy: 169452 };

  it("of iron at 1000 °C for one minute", () => {
    // k_p = 6.1e-4·exp(−169452/(8.314463·1273.15)) = 6.81e-11 m²/s; √(k_p·60 s) = 64 µm
    expect(Math.sqrt(oxideGrowthSquared(iron, 1273.15, 60))).toBeCloseTo(63.9e-6, 6);
  });

  it("is parabolic in time and steep in temperature", () => {
    expect(oxideGrowthSquared(iron, 1300, 4) / oxideGrowthSquared(iron, 1300, 1)).toBeCloseTo(4, 12);
    expect(oxideGrowthSquared(iron, 1400, 1)).toBeGreaterThan(2.5 * oxideGrowthSquared(iron, 1300, 1));
  });

  it("counts a short heating for a part of its length: as a numerical integral over heating and cooling has it", () => {
    const duration = 1e-4;
    for (const [peak, activation] of [
      [1400, 169452],
      [1000, 150e3],
      [1700, 220e3],
    ] as const) {
      const rise = peak - 293.15;
      // rise √(t/τ) while lit, √(t/τ) − √(t/τ − 1) after: the surface of a half-space under constant flux.
      const at = (x: number) => 293.15 + rise * (x <= 1 ? Math.sqrt(x) : Math.sqrt(x) - Math.sqrt(x - 1));
      let sum = 0;
      const n = 40000;
      for (let i = 0; i < n; i++) {
        const x = (4 * (i + 0.5)) / n;
        sum += Math.exp(-activation / (GAS_CONSTANT * at(x)) + activation / (GAS_CONSTANT * peak)) * (4 / n) * duration;
      }
      const ratio = reactionTime(duration, peak, rise, activation) / sum;
      // The first term of the expansion is an upper estimate, by less than a quarter.
      expect(ratio).toBeGreaterThan(1);
      expect(ratio).toBeLessThan(1.25);
    }
  });
});

describe("strip", () => {
  const sample = sampleOf("steel-low-carbon", [
    ["polyurethane-topcoat", "mid", 40, false],
    ["epoxy-primer", "mid", 30, true],
  ]);

  it("splits at the first layer that stays", () => {
    const strip = stripOf(sample);
    expect(strip.off.map((l) => l.kindId)).toEqual(["polyurethane-topcoat"]);
    expect(strip.stay.map((l) => l.kindId)).toEqual(["epoxy-primer"]);
    expect(strip.thickness).toBe(strip.off[0]?.thickness);
  });

  it("counts as clean what is below 1 µm or 5 %", () => {
    expect(residueThickness(10e-6)).toBe(1e-6);
    expect(residueThickness(100e-6)).toBeCloseTo(5e-6, 15);
  });

  it("takes the top away first, and pits are extra depth of the uppermost", () => {
    const two = stripOf(
      sampleOf("steel-low-carbon", [
        ["alkyd", "mid", 40, false],
        ["epoxy-primer", "mid", 30, false],
      ]),
    );
    const [top, under] = two.off;
    const upper = top?.thickness ?? 0;
    const lower = under?.thickness ?? 0;
    const thicknesses = (left: number) =>
      remainingLayers(two.off, left).map((r) => [r.layer.kindId, r.thickness] as const);
    const [a, b] = thicknesses(lower + 0.25 * upper);
    expect(a?.[0]).toBe("alkyd");
    expect(a?.[1]).toBeCloseTo(0.25 * upper, 12);
    expect(b?.[1]).toBeCloseTo(lower, 12);
    expect(thicknesses(0.5 * lower)).toEqual([["epoxy-primer", 0.5 * lower]]);
    expect(thicknesses(0)).toEqual([]);
    expect(thicknesses(upper + lower + 5e-6)[0]?.[1]).toBeCloseTo(upper + 5e-6, 12);
  });

  it("takes off nothing where every layer stays", () => {
    const kept = stripOf(sampleOf("aluminium-5083", [["epoxy-primer", "mid", 30, true]]));
    expect(kept.off).toEqual([]);
    expect(kept.thickness).toBe(0);
  });
});
