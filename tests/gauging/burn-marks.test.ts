import { describe, expect, it } from "vitest";
import { fitEllipticalSpot, fitSpot, misfitOf } from "#gauging";
import { createRandom } from "#numerics";
import { type BurnTruth, simulateBurns, trueDiameter } from "./burns.ts";

const truth: BurnTruth = { radius: 25e-6, threshold: 20e-6, scatter: 1.5e-6, energyNoise: 0.01 };
const fluence = (2 * truth.threshold) / (Math.PI * truth.radius ** 2);

describe("spot and threshold from burn marks", () => {
  it("crater diameter of 44.853 µm at w = 25 µm and five thresholds (Liu 1982), and back without error", () => {
    expect(trueDiameter(5 * truth.threshold, truth)).toBeCloseTo(44.853e-6, 9);
    const marks = [1.5, 2, 3, 5, 8].map((f) => ({
      energy: f * truth.threshold,
      diameter: trueDiameter(f * truth.threshold, truth),
      uncertainty: null,
    }));
    const fit = fitSpot(marks);
    expect(fit.radius.value / truth.radius).toBeCloseTo(1, 9);
    expect(fit.thresholdEnergy.value / truth.threshold).toBeCloseTo(1, 9);
    expect(fit.thresholdFluence.value / fluence).toBeCloseTo(1, 9);
    expect(fit.diameterScatter).toBe(0);
    expect(misfitOf(fit).words).toEqual([]);
  });

  // Five layouts of 2000 seeded files: 0.95 is 0.935 to 0.965 within three standard errors of 2000 files.
  it.each([
    [1e-6, 12, 1.3, 8, false],
    [1.5e-6, 20, 1.2, 10, false],
    [1.5e-6, 6, 1.3, 5, false],
    [1e-6, 12, 1.3, 8, true],
    [2e-6, 20, 1.2, 10, true],
  ] as const)("intervals cover: scatter %d m, %d marks, %d to %d thresholds, uncertainty stated: %s", (...layout) => {
    const [scatter, count, low, high, stated] = layout;
    const wanted = [truth.radius, truth.threshold, fluence];
    const covered = [0, 0, 0];
    let correlation = 0;
    const seen: [number, number][] = [];
    const files = 2000;
    for (let seed = 0; seed < files; seed++) {
      const fit = fitSpot(simulateBurns({ ...truth, scatter }, createRandom(seed), { count, low, high, stated }));
      [fit.radius, fit.thresholdEnergy, fit.thresholdFluence].forEach((estimate, i) => {
        if (estimate.low <= wanted[i]! && wanted[i]! <= estimate.high) covered[i]!++;
      });
      correlation += fit.correlation / files;
      seen.push([Math.log(fit.radius.value), Math.log(fit.thresholdEnergy.value)]);
    }
    for (const count of covered) {
      expect(count / files).toBeGreaterThan(0.93);
      expect(count / files).toBeLessThan(0.975);
    }
    expect(correlation).toBeCloseTo(correlationOf(seen), 1);
  });

  it("keeps quiet on sound marks and speaks up on a second slope", () => {
    let loud = 0;
    let heard = 0;
    const layout = { count: 24, low: 1.2, high: 20, stated: false };
    for (let seed = 0; seed < 300; seed++) {
      const marks = simulateBurns(truth, createRandom(seed), layout);
      if (misfitOf(fitSpot(marks)).words.length > 0) loud++;
      // A foot of 1.6 times the radius beyond five thresholds.
      const knee = 5 * truth.threshold;
      const bent = marks.map((mark) =>
        mark.energy < knee
          ? mark
          : {
              ...mark,
              diameter: Math.sqrt(
                mark.diameter ** 2 + 2 * (1.6 ** 2 - 1) * truth.radius ** 2 * Math.log(mark.energy / knee),
              ),
            },
      );
      if (misfitOf(fitSpot(bent)).words.some((w) => w.startsWith("Two slopes"))) heard++;
    }
    expect(loud / 300).toBeLessThan(0.07);
    expect(heard / 300).toBeGreaterThan(0.95);
  });

  it("names the mark that lies off", () => {
    const marks = simulateBurns(truth, createRandom(5), { count: 14, low: 1.3, high: 8, stated: false });
    const spoilt = marks.map((mark, i) => (i === 6 ? { ...mark, diameter: mark.diameter + 20e-6 } : mark));
    expect(misfitOf(fitSpot(spoilt)).deviating).toEqual([6]);
  });

  it("says when stated uncertainties are too small, and widens the errors", () => {
    const marks = simulateBurns(truth, createRandom(8), { count: 16, low: 1.3, high: 8, stated: true });
    const bold = marks.map((mark) => ({ ...mark, uncertainty: truth.scatter / 6 }));
    expect(misfitOf(fitSpot(bold)).tooLarge).toBeLessThan(0.001);
    expect(fitSpot(bold).radius.standardError).toBeGreaterThan(0.6 * fitSpot(marks).radius.standardError);
  });

  it("sees means of repeats off the line", () => {
    const marks = [1.5, 2.5, 4, 6, 9].flatMap((f, k) =>
      [-1, 0, 1].map((step) => ({
        energy: f * truth.threshold,
        diameter: trueDiameter(f * truth.threshold, truth) + step * 0.1e-6 + (k % 2 === 0 ? 2e-6 : -2e-6),
        uncertainty: null,
      })),
    );
    expect(misfitOf(fitSpot(marks)).lackOfFit).toBeLessThan(1e-4);
  });

  it("refuses marks that can give no spot", () => {
    const mark = (energy: number, diameter: number) => ({ energy, diameter, uncertainty: null });
    expect(() => fitSpot([mark(1, 1), mark(2, 2)])).toThrow("invalid burn marks: 2 (at least 3 for each spot)");
    expect(() => fitSpot([mark(1, 1), mark(1, 2), mark(1, 3)])).toThrow("invalid points of a line");
    expect(() => fitSpot([mark(1, 3), mark(2, 2), mark(3, 1)])).toThrow("must grow with the pulse energy");
    const wild = [60, 5, 90, 70, 95, 60, 5, 90].map((d, i) => mark(1.3 ** i, d));
    expect(() => fitSpot(wild)).toThrow("scatter too much about any line to give a spot");
    expect(() => fitSpot([mark(1, 3), mark(2, 0), mark(3, 1)])).toThrow("invalid mark diameter: 0 m");
    expect(() => fitSpot([{ ...mark(1, 3), uncertainty: 1 }, mark(2, 4), mark(3, 5)])).toThrow(
      "invalid uncertainty of a diameter: missing",
    );
  });
});

describe("elliptical marks", () => {
  it("give both radii, their ratio and one threshold fluence", () => {
    let covered = 0;
    const wide = { ...truth, radius: 32e-6 };
    for (let seed = 0; seed < 400; seed++) {
      const layout = { count: 14, low: 1.3, high: 8, stated: false };
      const x = simulateBurns(wide, createRandom(seed), layout);
      const y = simulateBurns(truth, createRandom(seed + 1000), layout);
      const fit = fitEllipticalSpot(
        x.map((mark, i) => ({
          energy: mark.energy,
          diameterX: mark.diameter,
          diameterY: y[i]!.diameter,
          uncertainty: null,
        })),
      );
      if (fit.ratio.low < 32 / 25 && 32 / 25 < fit.ratio.high) covered++;
      if (seed > 0) continue;
      expect(fit.round.radius.value / Math.sqrt(25e-6 * 32e-6)).toBeCloseTo(1, 1);
      expect(fit.round.thresholdFluence.value / ((2 * truth.threshold) / (Math.PI * 25e-6 * 32e-6))).toBeCloseTo(1, 1);
      expect(fit.sameThreshold).toBeGreaterThan(0.01);
    }
    expect(covered / 400).toBeGreaterThan(0.92);
    expect(covered / 400).toBeLessThan(0.98);
  });
});

function correlationOf(pairs: readonly (readonly [number, number])[]): number {
  const mean = (k: 0 | 1) => pairs.reduce((s, p) => s + p[k], 0) / pairs.length;
  const [a, b] = [mean(0), mean(1)];
  const sum = (f: (p: readonly [number, number]) => number) => pairs.reduce((s, p) => s + f(p), 0);
  return sum((p) => (p[0] - a) * (p[1] - b)) / Math.sqrt(sum((p) => (p[0] - a) ** 2) * sum((p) => (p[1] - b) ** 2));
}
