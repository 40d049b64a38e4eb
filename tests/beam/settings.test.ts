import { beamState, checkSetting, completeSetting, cutInFrequency, defaultSetting, roundToMachine } from "#beam";
import type { LaserSetup, Setting } from "#terms";
import { InvalidInput } from "#units";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { continuous, pulsed } from "./setups.ts";

const base = defaultSetting(pulsed);
const steady = defaultSetting(continuous);
const refusal = (setup: LaserSetup, change: Partial<Setting>): string => {
  try {
    checkSetting(setup, { ...(setup === pulsed ? base : steady), ...change });
  } catch (error) {
    expect(error).toBeInstanceOf(InvalidInput);
    return (error as InvalidInput).message;
  }
  return "accepted";
};

describe("checkSetting", () => {
  it("accepts the default settings", () => {
    expect(refusal(pulsed, {})).toBe("accepted");
    expect(refusal(continuous, {})).toBe("accepted");
  });

  it.each<[Partial<Setting>, string]>([
    [
      { frequency: 5e6, pulseWidth: 60e-9 },
      "invalid frequency: 5000 kHz (between 20 and 1000 kHz for pulsed-100 at 60 ns)",
    ],
    [{ frequency: 700e3 }, "invalid frequency: 700 kHz (between 20 and 600 kHz for pulsed-100 at 100 ns)"],
    [{ frequency: 10e3 }, "invalid frequency: 10 kHz (between 20 and 600 kHz for pulsed-100 at 100 ns)"],
    [{ frequency: null }, "invalid frequency: missing (pulsed-100 is pulsed and needs one)"],
    [{ pulseWidth: null }, "invalid pulse width: missing (pulsed-100 is pulsed and needs one)"],
    [{ pulseWidth: 150e-9 }, "invalid pulse width: 150 ns (pulsed-100 offers 60, 100, 200 ns)"],
    [{ power: 120 }, "invalid power: 120 W (above 0 and up to 100 W for pulsed-100)"],
    [{ power: Number.NaN }, "invalid power: not a number W (above 0 and up to 100 W for pulsed-100)"],
    [{ level: 0 }, "invalid level: 0 (above 0 and up to 1)"],
    [{ duty: 0.5 }, "invalid duty: 0.5 (1 for pulsed-100, which is pulsed)"],
    [{ speed: 30 }, "invalid speed: 30000 mm/s (between 10 and 10000 mm/s for pulsed-100)"],
    [{ lineSpacing: 1e-6 }, "invalid line spacing: 0.001 mm (between 0.01 and 100 mm for pulsed-100 with f160)"],
    [{ passes: 2.5 }, "invalid passes: 2.5 (a whole number)"],
    [{ passes: 51 }, "invalid passes: 51 (between 1 and 50 for pulsed-100)"],
    [{ defocus: -0.011 }, "invalid defocus: -11 mm (between -10 and 10 mm for pulsed-100)"],
    [{ lens: "f1" }, "invalid lens: f1 (pulsed-100 has f160, f254)"],
  ])("refuses %o", (change, message) => {
    expect(refusal(pulsed, change)).toBe(message);
  });

  it.each<[Partial<Setting>, string]>([
    [{ pulseWidth: 100e-9 }, "invalid pulse width: 100 ns (continuous-2000 is continuous and has no pulse width)"],
    [{ duty: 0.5 }, "invalid duty: 0.5 (1 without a modulation frequency)"],
    [{ duty: 0.05, frequency: 1000 }, "invalid duty: 0.05 (between 0.1 and 1 for continuous-2000)"],
    [{ duty: 0.5, frequency: 20e3 }, "invalid frequency: 20 kHz (between 0.1 and 10 kHz for continuous-2000)"],
  ])("refuses %o on a continuous source", (change, message) => {
    expect(refusal(continuous, change)).toBe(message);
  });

  it("lets the last bits of a unit conversion pass", () => {
    expect(refusal(pulsed, { frequency: 600e3 * (1 + 1e-12), pulseWidth: 100 * 1e-9 })).toBe("accepted");
  });
});

describe("beamState", () => {
  it("is limited by pulse energy below the cut-in frequency", () => {
    expect(cutInFrequency(pulsed, 100e-9)).toBe(100e3);
    const low = beamState(pulsed, { ...base, frequency: 50e3 });
    expect(low.energyLimited).toBe(true);
    expect(low.pulseEnergy).toBe(1e-3);
    expect(low.meanPower).toBeCloseTo(50, 10);
    const high = beamState(pulsed, { ...base, frequency: 200e3, level: 0.5 });
    expect(high.energyLimited).toBe(false);
    expect(high.meanPower).toBeCloseTo(50, 10);
    expect(high.pulseEnergy).toBeCloseTo(0.25e-3, 12);
  });

  it("joins the closed forms of one pulsed setting", () => {
    const s = beamState(pulsed, {
      ...base,
      frequency: 100e3,
      speed: 2.5,
      lineSpacing: 25e-6,
      passes: 2,
      defocus: 1.2e-3,
    });
    expect(s.spotDiameter).toBeCloseTo(50e-6 * Math.SQRT2, 12);
    expect(s.fluencePeak! / s.fluenceMean!).toBeCloseTo(2, 12);
    expect(s.irradiancePeak / s.fluencePeak!).toBeCloseTo(0.9394e7, -4);
    expect(s.pulsePitch).toBeCloseTo(25e-6, 12);
    expect(s.pulseOverlap).toBeCloseTo(1 - 0.5 / Math.SQRT2, 10);
    expect(s.lineOverlap).toBeCloseTo(1 - 0.5 / Math.SQRT2, 10);
    expect(s.eventsPerPoint).toBeCloseTo(16, 9);
    expect(s.lineEnergy).toBeCloseTo(40, 9);
    expect(s.arealDose).toBeCloseTo(1.6e6, 3);
    expect(s.areaRateIdeal).toBeCloseTo(3.125e-5, 12);
    expect(s.onTime).toBe(100e-9);
    expect(s.dwell).toBeNull();
  });

  it("keeps power while on and mean power apart for a modulated beam", () => {
    const s = beamState(continuous, { ...steady, level: 0.5, duty: 0.2, frequency: 1000, speed: 0.3 });
    expect(s.meanPower).toBeCloseTo(200, 10);
    expect(s.peakPower).toBeCloseTo(1000, 10);
    expect(s.onTime).toBeCloseTo(2e-4, 12);
    expect(s.pulsePitch).toBeCloseTo(3e-4, 12);
    expect(s.pulseOverlap).toBeCloseTo(0.2, 10);
    expect(s.dwell).toBeCloseTo(1e-3, 12);
    expect([s.pulseEnergy, s.fluencePeak, s.fluenceMean]).toEqual([null, null, null]);
    expect(beamState(continuous, steady).onTime).toBeNull();
  });
});

describe("completing and rounding", () => {
  it("starts a pulsed source near 100 ns, at cut-in, at 50 % overlap", () => {
    expect(base).toEqual({
      power: 100,
      level: 1,
      frequency: 100e3,
      pulseWidth: 100e-9,
      duty: 1,
      speed: 2.5,
      lineSpacing: 25e-6,
      passes: 1,
      defocus: 0,
      lens: "f160",
    });
  });

  it("keeps what was given and lets the rest follow it", () => {
    const s = completeSetting(pulsed, { pulseWidth: 60e-9, lens: "f254", speed: 1 });
    expect(s).toMatchObject({ pulseWidth: 60e-9, frequency: 200e3, lens: "f254", lineSpacing: 40e-6, speed: 1 });
    const burst = completeSetting(continuous, { duty: 0.2 });
    expect(burst.frequency).toBe(1000);
    expect(() => completeSetting(pulsed, { lens: "no" })).toThrow(InvalidInput);
  });

  it("rounds to panel steps", () => {
    const s = roundToMachine(pulsed, {
      ...base,
      frequency: 123456,
      pulseWidth: 83e-9,
      speed: 1.23456,
      lineSpacing: 33.4e-6,
      passes: 2.6,
      level: 0.45678,
      defocus: -0.00004,
    });
    expect(s).toMatchObject({
      frequency: 123500,
      pulseWidth: 100e-9,
      speed: 1.235,
      lineSpacing: 33e-6,
      passes: 3,
      level: 0.457,
      defocus: 0,
    });
  });

  it("always rounds into what the machine can run, and once is enough", () => {
    const wild = fc.double({ min: -1e7, max: 1e7, noNaN: true });
    const any = fc.record({
      power: wild,
      level: wild,
      duty: wild,
      frequency: fc.option(wild),
      speed: wild,
      lineSpacing: wild,
      passes: wild,
      defocus: wild,
      pulseWidth: fc.double({ min: 1e-10, max: 1e-3, noNaN: true }),
    });
    fc.assert(
      fc.property(any, fc.boolean(), (values, isPulsed) => {
        const setup = isPulsed ? pulsed : continuous;
        const start = isPulsed ? base : steady;
        const rounded = roundToMachine(setup, {
          ...start,
          ...values,
          frequency: isPulsed ? (values.frequency ?? 1e5) : values.frequency,
        });
        checkSetting(setup, rounded);
        expect(roundToMachine(setup, rounded)).toEqual(rounded);
        for (const value of Object.values(beamState(setup, rounded)))
          if (typeof value === "number") expect(Number.isFinite(value)).toBe(true);
      }),
      { numRuns: 300 },
    );
  });
});
