import { beamState, defaultSetting } from "#beam";
import { setup } from "#library";
import {
  cautionsFor,
  correctionA,
  correctionC,
  exposureLimit,
  exposureOf,
  eyeLimitDirective,
  eyeLimitIec,
  eyewear,
  hazardDistances,
  laserClass,
  repeatedExposure,
  skinLimit,
} from "#safety";
import { InvalidInput } from "#units";
import { describe, expect, it } from "vitest";

const outside = [193e-9, 355e-9, 532e-9, 699e-9, 1401e-9, 1550e-9, 2e-6, 10.6e-6, 0, -1e-6, Number.NaN, Infinity];
const words = "exposure limits are built in from 700 to 1400 nm only; ask the laser safety officer";

describe("light outside of 700 to 1400 nm", () => {
  it.each(outside)(
    "%d m: every limit, distance and eyewear level is refused in words, none is computed",
    (wavelength) => {
      const machine = { ...setup("pulsed-100"), wavelength };
      const setting = defaultSetting(setup("pulsed-100"));
      const beam = beamState(setup("pulsed-100"), setting);
      const asked: (() => unknown)[] = [
        () => exposureLimit({ wavelength, onTime: null, frequency: null }),
        () => exposureLimit({ wavelength, onTime: 1e-7, frequency: 1e5 }),
        () => exposureOf(machine, setting, beam),
        () => hazardDistances(machine, setting, beam),
        () => eyewear({ wavelength, meanPower: 100, pulseEnergy: null, onTime: null, frequency: null, diameter: 0.01 }),
        () => repeatedExposure(1, 1e4, wavelength),
        () => eyeLimitDirective(wavelength, 1),
        () => eyeLimitIec(wavelength, 1),
        () => skinLimit(wavelength, 1),
        () => correctionA(wavelength),
        () => correctionC(wavelength),
        () => laserClass(wavelength, 100, null),
      ];
      for (const ask of asked) {
        expect(ask, ask.toString()).toThrow(InvalidInput);
        expect(ask, ask.toString()).toThrow(words);
      }
    },
  );

  it("keeps its two ends", () => {
    for (const wavelength of [700e-9, 1400e-9])
      expect(exposureLimit({ wavelength, onTime: null, frequency: null }).eye.irradiance).toBeGreaterThan(0);
  });

  it("still gets its cautions: class 4, its own wavelength on the eyewear, the laser safety officer", () => {
    const machine = { ...setup("pulsed-100"), wavelength: 532e-9 };
    const text = cautionsFor({ setup: machine, beam: null, layers: [], metal: null }).join("\n");
    for (const word of ["Class 4", "532 nm", "laser safety officer"]) expect(text).toContain(word);
    expect(text).not.toMatch(/\bsafe\b/i);
  });
});
