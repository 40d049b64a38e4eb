import {
  areaRate,
  cutInFrequencyOf,
  depthOfFocus,
  diameterAtDefocus,
  fibreImageDiameter,
  fluenceMean,
  fluencePeak,
  focusedDiameter,
  handAreaRate,
  incidenceFactor,
  irradiancePeak,
  jumpTime,
  meanPowerModulated,
  onTime,
  overlap,
  peakPower,
  pulseEnergy,
  pulseShapeFactor,
  pulsesPerPoint,
  rayleighLength,
} from "#beam";
import { InvalidInput } from "#units";
import { describe, expect, it } from "vitest";
import { pulsed } from "./setups.ts";

describe("focus", () => {
  it("focuses 1.064 µm, M² 1.5, f 160 mm, D 7 mm to 46.4 µm (worked by hand)", () => {
    expect(focusedDiameter(1.5, 1.064e-6, 0.16, 7e-3)).toBeCloseTo(4.64475e-5, 9);
    expect(fibreImageDiameter(100e-6, 0.3, 0.1)).toBeCloseTo(300e-6, 15);
  });

  it("has √2 of the diameter and half the fluence at the Rayleigh length", () => {
    const zr = rayleighLength(50e-6, 1.5, 1.064e-6);
    expect(zr).toBeCloseTo((Math.PI * 25e-10) / (6 * 1.064e-6), 12);
    expect(diameterAtDefocus(50e-6, zr, -zr) / 50e-6).toBeCloseTo(Math.SQRT2, 12);
    expect(depthOfFocus(zr, 0.5)).toBeCloseTo(zr, 15);
  });

  it("loses exactly the stated share of fluence at the depth of focus", () => {
    for (const fall of [0.05, 0.1]) {
      const d = diameterAtDefocus(50e-6, 1e-3, depthOfFocus(1e-3, fall));
      expect((50e-6 / d) ** 2).toBeCloseTo(1 - fall, 12);
    }
  });

  it("refuses a beam better than diffraction allows", () => {
    expect(() => focusedDiameter(0.9, 1e-6, 0.1, 1e-2)).toThrow("invalid beam quality M2: 0.9 (1 or more)");
    expect(() => rayleighLength(-1e-6, 1, 1e-6)).toThrow(InvalidInput);
    expect(() => incidenceFactor(Math.PI / 2)).toThrow(InvalidInput);
  });
});

describe("pulses and continuous beam", () => {
  it("limits the pulse energy below the cut-in frequency", () => {
    expect(cutInFrequencyOf(100, 1e-3)).toBe(100e3);
    expect(pulseEnergy(100, 50e3, 1e-3)).toBe(1e-3);
    expect(pulseEnergy(100, 200e3, 1e-3)).toBe(0.5e-3);
  });

  it("knows the two pulse shapes: 1 and 0.94 (Gaussian FWHM, 2√(ln 2/π))", () => {
    expect(pulseShapeFactor.square).toBe(1);
    expect(pulseShapeFactor.gaussian).toBeCloseTo(0.9394, 4);
    expect(peakPower(1e-3, 100e-9, 1)).toBeCloseTo(10e3, 8);
  });

  it("doubles the mean fluence in the middle of a Gaussian spot, not of a top-hat", () => {
    const mean = fluenceMean(1e-3, 100e-6);
    expect(mean).toBeCloseTo(127323.95, 1);
    expect(fluencePeak(1e-3, 100e-6, "gaussian")).toBeCloseTo(2 * mean, 6);
    expect(fluencePeak(1e-3, 100e-6, "top-hat")).toBe(mean);
    expect(irradiancePeak(1000, 1e-3, "gaussian")).toBeCloseTo(8e9 / Math.PI, 0);
    expect(irradiancePeak(1000, 1e-3, "top-hat")).toBeCloseTo(4e9 / Math.PI, 0);
    expect(mean * incidenceFactor(Math.PI / 3)).toBeCloseTo(mean / 2, 6);
  });

  it("2 kW at 50 % level and 20 % duty is 200 W mean (common practice, no source)", () => {
    expect(meanPowerModulated(2000, 0.5, 0.2)).toBeCloseTo(200, 12);
    expect(onTime(0.2, 1000)).toBeCloseTo(2e-4, 15);
  });
});

describe("scan", () => {
  it("a spot of 0.32 mm at 0.16 mm, and of 0.2 mm at 0.1 mm, overlap by half (common practice, no source)", () => {
    expect(overlap(0.16e-3, 0.32e-3)).toBeCloseTo(0.5, 12);
    expect(overlap(0.1e-3, 0.2e-3)).toBeCloseTo(0.5, 12);
    expect(overlap(0.3e-3, 0.2e-3)).toBeCloseTo(-0.5, 12);
  });

  it("counts 4 pulses along, 2 lines across, 3 passes: 24", () => {
    expect(pulsesPerPoint(100e3, 80e-6, 2, 40e-6, 3)).toBeCloseTo(24, 10);
    expect(() => pulsesPerPoint(100e3, 80e-6, 2, 40e-6, 1.5)).toThrow("invalid passes: 1.5");
  });
});

describe("area rate", () => {
  const setting = {
    power: 100,
    level: 1,
    duty: 1,
    frequency: 100e3,
    pulseWidth: 100e-9,
    speed: 5,
    lineSpacing: 50e-6,
    passes: 2,
    defocus: 0,
    lens: "f160",
  };

  it("adds turn-round and return time to the lines of a field (worked by hand)", () => {
    const r = areaRate(pulsed, setting);
    expect(r.lines).toBe(2000);
    expect(r.turnTime).toBeCloseTo(2e-3, 12);
    expect(r.timePerLine).toBeCloseTo(22e-3, 12);
    const back = Math.hypot(0.1, 0.1) / 10 + 10 / 5000;
    expect(r.jumpTime).toBeCloseTo(back, 12);
    expect(r.total).toBeCloseTo(88 + back, 9);
    expect(r.idealRate).toBeCloseTo(1.25e-4, 12);
    expect(r.rate).toBeCloseTo(0.01 / (88 + back), 12);
  });

  it("cuts a larger area into fields and counts their changes", () => {
    const r = areaRate(pulsed, setting, { width: 0.3, height: 0.15, fieldChangeTime: 4 });
    expect(r.fields).toBe(6);
    expect(r.lines).toBe(6 * 1500);
    expect(r.total - 2 * r.lines * r.timePerLine).toBeCloseTo(5 * 4 + 6 * (Math.hypot(0.1, 0.075) / 10 + 0.002), 9);
  });

  it("jumps by acceleration alone over short ways, and both branches meet", () => {
    expect(jumpTime(0.002, 10, 5000)).toBeCloseTo(2 * Math.sqrt(0.002 / 5000), 12);
    expect(jumpTime(0.02, 10, 5000)).toBeCloseTo(2 * Math.sqrt(0.02 / 5000), 12);
    expect(jumpTime(0.1, 10, 5000)).toBeCloseTo(0.012, 12);
  });

  it("by hand is line width times travel speed over passes", () => {
    expect(handAreaRate(0.05, 0.02, 2)).toBeCloseTo(5e-4, 15);
    expect(() => handAreaRate(0.05, 0, 2)).toThrow(InvalidInput);
  });
});
