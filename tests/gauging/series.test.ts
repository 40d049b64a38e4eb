import { describe, expect, it } from "vitest";
import { fitFocus, fitIncubation, incubatedThreshold } from "#gauging";
import { createRandom } from "#numerics";

describe("incubation", () => {
  it("S = 0.9: 0.794, 0.631 and 0.501 of the first threshold at 10, 100 and 1000 pulses (Jee, Becker, Walser 1988)", () => {
    expect([10, 100, 1000].map((n) => incubatedThreshold(1, n, 0.9))).toEqual(
      [0.794, 0.631, 0.501].map((x) => expect.closeTo(x, 3)),
    );
  });

  it("is recovered, with intervals that cover", () => {
    let exponent = 0;
    let first = 0;
    const files = 2000;
    for (let seed = 0; seed < files; seed++) {
      const stream = createRandom(seed);
      const fit = fitIncubation(
        [1, 3, 10, 30, 100, 300].map((pulses) => {
          const threshold = incubatedThreshold(2e4, pulses, 0.88) * Math.exp(0.05 * stream.normal());
          return { pulses, threshold, standardError: 0.05 * threshold };
        }),
      );
      if (fit.exponent.low < 0.88 && 0.88 < fit.exponent.high) exponent++;
      if (fit.first.low < 2e4 && 2e4 < fit.first.high) first++;
    }
    for (const covered of [exponent, first]) {
      expect(covered / files).toBeGreaterThan(0.94);
      expect(covered / files).toBeLessThan(0.98);
    }
  });

  it("shows thresholds that follow no power law", () => {
    const bent = [1, 10, 100, 1000].map((pulses) => {
      const threshold = 1e4 * (pulses < 50 ? 1 : 0.6);
      return { pulses, threshold, standardError: 0.02 * threshold };
    });
    expect(fitIncubation(bent).misfit).toBeLessThan(1e-6);
    expect(() => fitIncubation(bent.slice(0, 2))).toThrow("invalid pulse numbers: 2");
  });
});

describe("focus series", () => {
  const wavelength = 1.064e-6;
  const truth = { waist: 25e-6, position: 0.4e-3, quality: 1.6 };
  const angle = (truth.quality * wavelength) / (Math.PI * truth.waist);
  const rayleigh = truth.waist / angle;
  const places = [-4, -3, -2, -1, -0.5, 0, 0.5, 1, 2, 3, 4].map((u) => u * 1e-3);
  const reading = (defocus: number, noise: number) => {
    const radius = Math.hypot(truth.waist, angle * (defocus - truth.position)) * (1 + noise);
    return { defocus, radius, standardError: 0.03 * radius };
  };

  it("gives the waist, its place, the Rayleigh length and M² back", () => {
    const fit = fitFocus(
      places.map((z) => reading(z, 0)),
      wavelength,
    );
    expect(fit.waist.value / truth.waist).toBeCloseTo(1, 8);
    expect(fit.position.value).toBeCloseTo(truth.position, 9);
    expect(fit.rayleighLength.value / rayleigh).toBeCloseTo(1, 8);
    expect(fit.beamQuality.value).toBeCloseTo(1.6, 8);
    expect(fit.cautions).toEqual([]);
  });

  it("with intervals that cover over 1000 seeded series", () => {
    const wanted = [truth.waist, truth.position, rayleigh, truth.quality];
    const covered = [0, 0, 0, 0];
    const files = 1000;
    for (let seed = 0; seed < files; seed++) {
      const stream = createRandom(seed);
      const fit = fitFocus(
        places.map((z) => reading(z, 0.03 * stream.normal())),
        wavelength,
      );
      [fit.waist, fit.position, fit.rayleighLength, fit.beamQuality].forEach((estimate, i) => {
        if (estimate.low < wanted[i]! && wanted[i]! < estimate.high) covered[i]!++;
      });
    }
    for (const count of covered) {
      expect(count / files).toBeGreaterThan(0.93);
      expect(count / files).toBeLessThan(0.985);
    }
  });

  it("says when the waist was not bracketed, and when M² is below 1", () => {
    const beyond = fitFocus(
      [1, 1.5, 2, 3, 4].map((mm) => reading(mm * 1e-3, 0)),
      wavelength,
    );
    expect(beyond.cautions[0]).toContain("The waist lies beyond the places that were burned");
    const wrong = fitFocus(
      places.map((z) => ({ ...reading(z, 0), standardError: 1e-7 })),
      2 * wavelength,
    );
    expect(wrong.cautions.some((c) => c.startsWith("M² below 1 is impossible"))).toBe(true);
  });

  it("refuses a series without a waist", () => {
    const flat = places.map((defocus) => ({ defocus, radius: 3e-5 - defocus ** 2, standardError: 1e-6 }));
    expect(() => fitFocus(flat, wavelength)).toThrow("invalid focus series: no waist");
    expect(() => fitFocus(flat.slice(0, 3), wavelength)).toThrow("invalid places along the beam: 3");
  });
});
