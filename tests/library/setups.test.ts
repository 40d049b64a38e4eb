import { describe, expect, it } from "vitest";
import { setups } from "#library";

const pulsed = setups.filter((s) => s.kind === "pulsed");
const continuous = setups.filter((s) => s.kind === "continuous");

describe("laser set-ups", () => {
  it("carry the ids that scripts rely on", () => {
    expect(setups.map((s) => s.id)).toEqual([
      "pulsed-50",
      "pulsed-100",
      "pulsed-200",
      "pulsed-500",
      "continuous-1000",
      "continuous-1500",
      "continuous-2000",
      "continuous-3000",
    ]);
    for (const s of setups) expect(s.id).toBe(`${s.kind}-${s.ratedPower}`);
  });

  it.each(setups.map((s) => [s.id, s] as const))("%s: spot and Rayleigh length follow from beam and lens", (_, s) => {
    for (const lens of s.lenses) {
      // ISO 11146 definitions: d0 = 4 M² λ f/(π D); z_R = π d0²/(4 M² λ)
      const d0 = (4 * s.beamQualityM2 * s.wavelength * lens.focalLength) / (Math.PI * s.beamDiameterOnLens);
      expect(Math.abs(lens.spotDiameter / d0 - 1)).toBeLessThan(1e-3);
      const zR = (Math.PI * d0 ** 2) / (4 * s.beamQualityM2 * s.wavelength);
      expect(Math.abs(lens.rayleighLength / zR - 1)).toBeLessThan(2e-3);
      expect(lens.id).toBe(`f${Math.round(1e3 * lens.focalLength)}`);
      expect(lens.fieldSide).toBeLessThan(lens.focalLength);
    }
  });

  // fibre core and collimator as the data files' notes state them
  it.each([
    ["pulsed-500", 200e-6, 0.075],
    ["continuous-1000", 50e-6, 0.06],
    ["continuous-1500", 50e-6, 0.06],
    ["continuous-2000", 100e-6, 0.075],
    ["continuous-3000", 100e-6, 0.075],
  ])("%s: spot is the fibre core imaged, and the core carries that beam quality", (id, core, collimator) => {
    const s = setups.find((x) => x.id === id)!;
    for (const lens of s.lenses) {
      expect(Math.abs(lens.spotDiameter / ((core * lens.focalLength) / collimator) - 1)).toBeLessThan(1e-3);
    }
    // M² = π·(core/2)·NA/λ at a filled aperture
    const filled = (Math.PI * (core / 2) * s.fibreNumericalAperture) / s.wavelength;
    expect(s.beamQualityM2 / filled).toBeGreaterThan(0.9);
    expect(s.beamQualityM2 / filled).toBeLessThan(1.1);
  });

  it("pulsed: reach rated power at each width inside their frequency range", () => {
    for (const s of pulsed) {
      expect(s.modulation).toBeNull();
      for (const p of s.pulses) {
        const cutIn = s.ratedPower / p.energyMax;
        expect(cutIn, `${s.id} ${p.width}`).toBeGreaterThan(s.frequencyMin);
        expect(cutIn, `${s.id} ${p.width}`).toBeLessThanOrEqual(p.frequencyMax);
        expect(p.frequencyMax).toBeLessThanOrEqual(s.frequencyMax);
        expect(p.width * p.frequencyMax, "pulses must not run into each other").toBeLessThan(0.5);
      }
      const energies = s.pulses.map((p) => p.energyMax);
      expect([...energies].sort((a, b) => a - b)).toEqual(energies);
      const widths = s.pulses.map((p) => p.width);
      expect([...widths].sort((a, b) => a - b)).toEqual(widths);
    }
    expect(Math.max(...pulsed.find((s) => s.id === "pulsed-500")!.pulses.map((p) => p.energyMax))).toBe(0.025);
  });

  it("continuous: modulated to at least 5 kHz, spots of 0.1 to 0.6 mm, hand line widths", () => {
    for (const s of continuous) {
      expect(s.pulses).toEqual([]);
      expect(s.modulation!.dutyMin).toBeGreaterThanOrEqual(0.05);
      expect(s.modulation!.frequencyMax).toBeGreaterThanOrEqual(5e3);
      for (const lens of s.lenses) {
        expect(lens.spotDiameter).toBeGreaterThan(0.1e-3);
        expect(lens.spotDiameter).toBeLessThan(0.6e-3);
      }
    }
  });

  it("are coherent in limits, price and origin", () => {
    for (const s of setups) {
      expect(s.speedMin).toBeLessThan(s.speedMax);
      expect(s.price.low).toBeLessThan(s.price.high);
      expect(s.price.currency).toBe("EUR");
      expect(s.fromMemory).toBe(true);
      expect(s.source).toBe("memory-setups");
      if (s.deliveries.includes("hand")) expect(s.handLineWidth!.min).toBeLessThan(s.handLineWidth!.max);
      expect(s.wallPlugEfficiency).toBeGreaterThan(0.1);
      expect(s.wallPlugEfficiency).toBeLessThan(0.45);
    }
  });
});
