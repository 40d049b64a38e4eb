import {
  captureAirflow,
  collimatedDistance,
  curtainNote,
  diameter63,
  diffuseDistance,
  directFan,
  eyewear,
  fibreDistance,
  fibreShare,
  halfSpaceDistance,
  hazardDistances,
  lensDistance,
  pulsedLevel,
  repeatedExposure,
  roundUpDistance,
  steadyLevel,
  wideBeamFactor,
} from "#safety";
import { beamState, defaultSetting } from "#beam";
import { setup } from "#library";
import { InvalidInput } from "#units";
import { describe, expect, it } from "vitest";

describe("hazard distance, printed cases", () => {
  // DGUV Information 203-093, 4.3: 300 W, f 150 mm, d63 8.5 mm, 1064 nm, 10 s to 30 000 s: limits 50 and 1e4 W/m².
  it("S1: direct 49 m and 3.5 m", () => {
    expect(lensDistance(300, 50, 0.15, 8.5e-3)).toBeCloseTo(48.78, 2);
    expect(roundUpDistance(lensDistance(300, 50, 0.15, 8.5e-3))).toBe(49);
    expect(roundUpDistance(lensDistance(300, 1e4, 0.15, 8.5e-3))).toBe(3.5);
  });

  it("S2: 15 % reflected 19 m and 1.3 m (1.336, printed rounded down: shown here as 1.4)", () => {
    expect(Math.round(lensDistance(45, 50, 0.15, 8.5e-3))).toBe(19);
    expect(lensDistance(45, 1e4, 0.15, 8.5e-3)).toBeCloseTo(1.336, 3);
    expect(roundUpDistance(lensDistance(45, 1e4, 0.15, 8.5e-3))).toBe(1.4);
  });

  it("S3: scattered evenly 1 m and 0.1 m", () => {
    expect(halfSpaceDistance(300, 50)).toBeCloseTo(0.977, 3);
    expect(roundUpDistance(halfSpaceDistance(300, 50))).toBe(1);
    expect(roundUpDistance(halfSpaceDistance(300, 1e4))).toBe(0.1);
  });

  it("S4: share of a fibre's light in a 7 mm eye at 10 cm 8.2, 2.5, 1.2 % (AUVA M 082 table 3)", () => {
    // 8.15 computed; 8.2 is printed, as from a beam radius rounded to 12.0 mm.
    for (const [na, percent] of [
      [0.2, 8.2],
      [0.35, 2.5],
      [0.47, 1.2],
    ] as const)
      expect(Math.abs(fibreShare(na, 0.1, 7e-3) * 100 - percent)).toBeLessThan(0.06);
  });

  it("S5: diffuse 1.4 m, lens 11.3 m, direct 1410 m (OSHA laser guidance, from memory)", () => {
    expect(diffuseDistance(100, 16, 1, 0)).toBeCloseTo(1.41, 2);
    expect(lensDistance(100, 16, 25.4e-3, 6.35e-3)).toBeCloseTo(11.28, 2);
    expect(lensDistance(100, 16, 25.4e-3, 6.3e-3)).toBeCloseTo(11.37, 2);
    expect(Math.abs(collimatedDistance(100, 16, 2e-3, 2e-3) - 1410)).toBeLessThan(5);
  });

  it("is the distance at which an open fibre meets its limit", () => {
    const d = fibreDistance(300, 50, 0.2);
    expect((300 * fibreShare(0.2, d, 1e-4)) / ((Math.PI * 1e-8) / 4)).toBeCloseTo(50, 4);
  });

  it("falls with the angle, is 0 where nothing is exceeded, and is refused outside its range", () => {
    expect(diffuseDistance(100, 16, 0.5, Math.PI / 3)).toBeCloseTo(diffuseDistance(100, 16, 1, 0) / 2, 12);
    expect(collimatedDistance(1e-3, 50, 7e-3, 1e-3)).toBe(0);
    expect(() => fibreDistance(100, 50, 1)).toThrow(InvalidInput);
    expect(() => lensDistance(-1, 50, 0.1, 0.01)).toThrow(InvalidInput);
  });

  it("rounds up and never down", () => {
    expect([0.01, 1.3, 1.31, 12.1, 101, 1409.5].map(roundUpDistance)).toEqual([0.1, 1.3, 1.4, 13, 110, 1410]);
  });
});

describe("hazard distances of a setting", () => {
  it.each(["pulsed-100", "continuous-2000"])(
    "lists every path of %s, longest for eyes, in terms of its own lens",
    (id) => {
      const machine = setup(id);
      const setting = defaultSetting(machine);
      const beam = beamState(machine, setting);
      const result = hazardDistances(machine, setting, beam, { duration: 10 });
      expect(result.distances).toHaveLength(6);
      for (const d of result.distances) {
        expect(d.eye).toBeGreaterThan(d.skin);
        expect(d.eyeShown).toBeGreaterThanOrEqual(d.eye);
        expect(d.skinShown).toBeGreaterThanOrEqual(d.skin);
      }
      const lens = machine.lenses.find((l) => l.id === setting.lens)!;
      const load = beam.pulseEnergy ?? beam.meanPower;
      const limit = result.limit.eye.perPulse ?? result.limit.eye.irradiance;
      expect(result.distances[0]!.eye).toBeCloseTo(
        lensDistance(load, limit, lens.focalLength, diameter63(machine.beamDiameterOnLens)),
        9,
      );
      expect(result.note).toContain("laser safety officer");
    },
  );

  it("says how far the direct beam fans out: 110 mm of field behind 160 mm are 37.9°, and the beam's own cone", () => {
    const machine = { ...setup("pulsed-100"), beamDiameterOnLens: 8e-3 };
    expect((directFan(machine, "f160") * 180) / Math.PI).toBeCloseTo(37.94 + ((8 / 160) * 180) / Math.PI, 2);
    const setting = { ...defaultSetting(machine), lens: "f160" };
    expect(hazardDistances(machine, setting, beamState(machine, setting)).fan).toBe(directFan(machine, "f160"));
    expect(() => directFan(machine, "f1")).toThrow(InvalidInput);
  });

  it("takes the bursts of a modulated beam as pulses", () => {
    const machine = setup("continuous-2000");
    const setting = { ...defaultSetting(machine), duty: 0.2, frequency: 1000 };
    const { limit } = hazardDistances(machine, setting, beamState(machine, setting));
    expect(limit.eye.perPulse).not.toBeNull();
  });
});

describe("eyewear", () => {
  it("S6: 1064 nm, 600 W, 150 J, 20 ms, 4 Hz, d63 40 mm: D LB7 + I LB8 (DGUV Information 203-042 table 1)", () => {
    for (const filter of ["glass", "plastic"] as const) {
      const advice = eyewear({
        wavelength: 1.064e-6,
        meanPower: 600,
        pulseEnergy: 150,
        onTime: 20e-3,
        frequency: 4,
        diameter: 40e-3,
        filter,
      });
      expect(advice.marking).toBe("1064 nm D LB7 + I LB8");
      expect(advice.notes.join(" ")).toContain("ISO 19818-1:2021");
    }
  });

  it("has the levels of EN 207 for 315-1400 nm at their ends", () => {
    expect([1e3, 1.001e3, 1e7].map(steadyLevel)).toEqual([2, 3, 6]);
    expect([pulsedLevel("R", 5), pulsedLevel("R", 5.01), pulsedLevel("M", 1.5), pulsedLevel("I", 5e4)]).toEqual([
      3, 4, 4, 7,
    ]);
    expect(wideBeamFactor(0.03, 100, "glass")).toBeCloseTo(15 ** 1.1693, 9);
    expect([wideBeamFactor(0.01, 9, "glass"), wideBeamFactor(1e-4, 100, "plastic")]).toEqual([1, 1]);
  });

  it("weighs repetition by N^(1/4), and sums pulses inside 50 µs above 20 kHz", () => {
    expect(repeatedExposure(1, 4, 1.064e-6)).toBeCloseTo(20 ** 0.25, 12);
    expect(repeatedExposure(1, 100e3, 1.064e-6)).toBeCloseTo(5 * 1e5 ** 0.25, 9);
    expect(repeatedExposure(1, null, 1.064e-6)).toBe(1);
  });

  it("gives the optical density over the 7 mm of the pupil, and the mode from the pulse length", () => {
    const narrow = eyewear({
      wavelength: 1.064e-6,
      meanPower: 1000,
      pulseEnergy: null,
      onTime: null,
      frequency: null,
      diameter: 1e-3,
    });
    expect(narrow.opticalDensity).toBeCloseTo(Math.log10(1000 / ((Math.PI * 49e-6) / 4) / 50), 10);
    expect(narrow.notes[0]).not.toContain("above LB10");
    const modes = [100e-12, 100e-9, 1e-5].map(
      (onTime) =>
        eyewear({ wavelength: 1.064e-6, meanPower: 100, pulseEnergy: 1e-3, onTime, frequency: 1e4, diameter: 8e-3 })
          .levels[1]!.mode,
    );
    expect(modes).toEqual(["M", "R", "I"]);
    const burning = eyewear({
      wavelength: 1.064e-6,
      meanPower: 3000,
      pulseEnergy: null,
      onTime: null,
      frequency: null,
      diameter: 1e-5,
    });
    expect(burning.notes[0]).toContain("enclose");
  });
});

it("capture: 16 in opening, 300 ft/min, 12 and 24 in: 3,420 and 12,420 cfm (ACGIH Industrial Ventilation, from memory)", () => {
  const [foot, cfm] = [0.3048, 0.3048 ** 3 / 60];
  const opening = (Math.PI / 4) * (16 * 0.0254) ** 2;
  for (const [x, printed] of [
    [1, 3420],
    [2, 12420],
  ] as const) {
    expect(Math.abs(captureAirflow((300 * foot) / 60, x * foot, opening, false) / cfm - printed)).toBeLessThan(5);
  }
  expect(captureAirflow(1, 0.3, 0.1, true)).toBeCloseTo(0.75, 12);
});

it("passive curtains end at 100 W mean or 30 J per pulse (EN 12254, from memory)", () => {
  expect(curtainNote(100, 30)).toBeNull();
  expect(curtainNote(101, null)).toContain("EN 12254");
  expect(curtainNote(50, 31)).toContain("30 J");
});
