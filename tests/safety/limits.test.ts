import {
  classOneLimit,
  correction5,
  correctionA,
  correctionC,
  exposureLimit,
  eyeLimitDirective,
  eyeLimitIec,
  laserClass,
  skinLimit,
} from "#safety";
import { InvalidInput } from "#units";
import fc from "fast-check";
import { describe, expect, it } from "vitest";

const nd = 1.064e-6;
const train = (frequency: number | null, onTime = 100e-9, duration = 10) =>
  exposureLimit({ wavelength: nd, onTime, frequency, duration });
const lowestOf = (frequency: number, edition: string) =>
  Math.min(
    ...train(frequency)
      .eye.candidates.filter((c) => c.edition.startsWith(edition))
      .map((c) => c.radiantExposure),
  );

describe("limits of one exposure", () => {
  it("has the correction factors of Directive 2006/25/EC Annex II", () => {
    expect([700e-9, 800e-9, 1064e-9].map(correctionA)).toEqual([1, expect.closeTo(10 ** 0.2, 12), 5]);
    expect([1064e-9, 1175e-9, 1300e-9].map(correctionC)).toEqual([1, expect.closeTo(10 ** 0.45, 9), 8]);
  });

  it("S7: 6.36e-4 J/cm² for visible light in 0.25 s (university guidance; 18·t^0.75)", () => {
    expect(Math.abs(eyeLimitDirective(700e-9, 0.25) / 1e4 - 6.36e-4)).toBeLessThan(0.5e-6);
    expect(eyeLimitIec(700e-9, 0.25)).toBeCloseTo(18 * 0.25 ** 0.75, 12);
  });

  it("has the rows of the Directive's table at 1064 and 800 nm", () => {
    const a = correctionA(800e-9);
    const rows: [number, number, number][] = [
      [1064e-9, 1e-12, 1.5e-3],
      [1064e-9, 1e-10, 2.7e5 * 1e-10 ** 0.75],
      [1064e-9, 1e-7, 5e-2],
      [1064e-9, 4e-5, 5e-2],
      [1064e-9, 1, 90],
      [1064e-9, 100, 5000],
      [800e-9, 1e-12, 1.5e-4 * a],
      [800e-9, 1e-10, 2.7e4 * 1e-10 ** 0.75 * a],
      [800e-9, 1e-7, 5e-3 * a],
      [800e-9, 4e-5, 18 * 4e-5 ** 0.75 * a],
      [800e-9, 1, 18 * a],
      [800e-9, 100, 1000 * a],
    ];
    for (const [wavelength, t, limit] of rows) expect(eyeLimitDirective(wavelength, t) / limit).toBeCloseTo(1, 10);
  });

  it("has the rows of IEC 60825-1:2014 (from memory) and of the skin table", () => {
    const a = correctionA(800e-9);
    for (const [wavelength, t, limit] of [
      [nd, 1e-7, 2e-2],
      [nd, 1, 90],
      [nd, 100, 5000],
      [800e-9, 1e-7, 2e-3 * a],
      [800e-9, 1e-3, 18 * 1e-3 ** 0.75 * a],
      [800e-9, 100, 1000 * a],
    ] as const) {
      expect(eyeLimitIec(wavelength, t) / limit).toBeCloseTo(1, 10);
    }
    for (const [t, limit] of [
      [1e-10, 100],
      [5e-8, 1000],
      [1, 5.5e4],
      [100, 1e6],
    ] as const)
      expect(skinLimit(nd, t) / limit).toBeCloseTo(1, 10);
  });

  it("never falls by more than the last step when exposure gets longer", () => {
    const log = fc.double({ min: -10.9, max: 4, noNaN: true });
    fc.assert(
      fc.property(log, log, fc.constantFrom(720e-9, 900e-9, 1064e-9, 1180e-9, 1390e-9), (x, y, wavelength) => {
        const [short, long] = [10 ** Math.min(x, y), 10 ** Math.max(x, y)];
        // Printed rows meet to a few per cent (200 and 195.6 at 100 ns, 506 and 500 at 10 s).
        for (const table of [eyeLimitDirective, eyeLimitIec, skinLimit])
          expect(table(wavelength, long)).toBeGreaterThan(table(wavelength, short) * 0.95);
      }),
    );
  });

  it("refuses other wavelengths in words", () => {
    expect(() => exposureLimit({ wavelength: 532e-9, onTime: null, frequency: null })).toThrow(
      "invalid wavelength: 532 nm (exposure limits are built in from 700 to 1400 nm only; ask the laser safety officer)",
    );
    expect(() => correctionA(Number.NaN)).toThrow(InvalidInput);
  });
});

describe("pulse trains", () => {
  it.each([
    [50, 1.057e-2, 2e-2],
    [20e3, 2.364e-3, 2.5e-3],
    [100e3, 4.729e-4, 5e-4],
  ])("S8: 1064 nm, 100 ns, 10 s at %d Hz (computed from the two tables)", (frequency, directive, iec) => {
    // Half a unit of the last of four printed digits.
    const halfUnit = 0.5 * 10 ** (Math.floor(Math.log10(directive)) - 3);
    expect(Math.abs(lowestOf(frequency, "Directive") - directive)).toBeLessThanOrEqual(halfUnit);
    expect(lowestOf(frequency, "IEC") / iec).toBeCloseTo(1, 9);
    const { eye } = train(frequency);
    expect(eye.edition).toBe("Directive 2006/25/EC");
    expect(eye.rule).toBe("each pulse, lowered for repetition");
    expect(eye.perPulse).toBe(eye.radiantExposure);
    expect(eye.irradiance).toBeCloseTo(eye.perPulse! * frequency, 9);
  });

  it("has C5 of a point source (IEC 60825-1:2014, from memory)", () => {
    expect([1, 600, 625, 1e4, 1e6].map(correction5)).toEqual([1, 1, 1, 0.5, 0.4]);
    const brief = exposureLimit({ wavelength: nd, onTime: 100e-9, frequency: 20e3, duration: 0.2 }).eye.candidates;
    expect(brief.find((c) => c.edition.startsWith("IEC") && c.rule.includes("lowered"))!.radiantExposure).toBeCloseTo(
      2e-2,
      12,
    );
  });

  it("is one table value for a single pulse and for a steady beam", () => {
    const one = train(null).eye;
    expect(one).toMatchObject({ perPulse: 2e-2, edition: "IEC 60825-1:2014", rule: "each pulse", fromMemory: true });
    const steady = exposureLimit({ wavelength: nd, onTime: null, frequency: null });
    expect(steady.eye.irradiance).toBeCloseTo(50, 10);
    expect(steady.eye.perPulse).toBeNull();
    expect(steady.skin.irradiance).toBeCloseTo(1e4, 8);
  });

  it("never allows a train more than its single pulse or its mean", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 6, noNaN: true }),
        fc.double({ min: -9, max: -6.5, noNaN: true }),
        (logF, logT) => {
          const { eye, skin } = train(10 ** logF, 10 ** logT);
          expect(eye.perPulse!).toBeLessThanOrEqual(eyeLimitDirective(nd, 10 ** logT));
          expect(eye.irradiance).toBeLessThanOrEqual(50.7);
          expect(skin.irradiance).toBeLessThanOrEqual(1e4 * 1.001);
        },
      ),
    );
  });

  it("refuses trains that overlap themselves", () => {
    expect(() => train(1e7, 1e-6)).toThrow("pulses or bursts would overlap");
    expect(() => exposureLimit({ wavelength: nd, onTime: null, frequency: 10 })).toThrow(InvalidInput);
  });
});

it("class: 7.7e-7 J, 3.5e-3·t^0.75 J, 1.9e-3 W; 3B ends at 0.5 W and 0.15 J (IEC 60825-1:2014, from memory)", () => {
  expect(classOneLimit(1e-7)).toBe(7.7e-7);
  expect(classOneLimit(1)).toBeCloseTo(3.5e-3, 12);
  expect(classOneLimit(100)).toBeCloseTo(0.19, 12);
  expect([
    laserClass(nd, 0.4, null),
    laserClass(nd, 0.6, null),
    laserClass(nd, 0.4, 0.16),
    laserClass(nd, 0.4, 0.14),
  ]).toEqual(["3B or lower", "4", "4", "3B or lower"]);
});
