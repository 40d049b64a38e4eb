import { describe, expect, it } from "vitest";
import { createRandom, normalCdf, normalQuantile } from "#numerics";
import { fitWindow } from "../../tools/study/probit/fit-window.ts";
import { meanProbabilities, windowProbabilities } from "../../tools/study/probit/predict-window.ts";
import { agrees, burn, featuresOf, settingOf, spreadSettings, truthOf, type TruthShift } from "../study/synthetic.ts";

describe("window fit", () => {
  it("settles: R-hat below 1.01 and more than 400 effective draws at 48 patches", () => {
    const fit = fitWindow(burn(spreadSettings(48), agrees, agrees, 3), { seed: 5 });
    expect(fit.rHat).toBeLessThan(1.01);
    expect(fit.effectiveSampleSize).toBeGreaterThan(400);
    expect(fit.draws).toBe(1000);
  });

  it("is the same again from the same seed, and not from another", () => {
    const observations = burn(spreadSettings(20), agrees, agrees, 3);
    const features = featuresOf(settingOf(90));
    const first = fitWindow(observations, { seed: 11 }).predict(features);
    expect(fitWindow(observations, { seed: 11 }).predict(features)).toEqual(first);
    expect(fitWindow(observations, { seed: 12 }).predict(features)).not.toEqual(first);
  });

  it("keeps the signs that physics fixes, in every draw", () => {
    // Grades turned upside down: more dose is seen to clean less and to harm less.
    const upside = burn(spreadSettings(40), agrees, agrees, 3).map((o) => ({
      ...o,
      clean: !o.clean,
      undamaged: !o.undamaged,
    }));
    const fit = fitWindow(upside, { seed: 2 });
    for (let i = 0; i < fit.draws; i++) {
      const clean = fit.clean.coefficients.subarray(6 * i, 6 * i + 6);
      const undamaged = fit.undamaged.coefficients.subarray(6 * i, 6 * i + 6);
      expect(clean[1]).toBeGreaterThan(0);
      expect(undamaged[1]).toBeGreaterThan(0);
      for (const k of [2, 3, 4]) {
        expect(clean[k]).toBeGreaterThanOrEqual(0);
        expect(undamaged[k]).toBeLessThanOrEqual(0);
      }
    }
    // So the mean chance of clean still rises with power, and that of undamaged falls.
    const at = (power: number) => meanProbabilities(fit, featuresOf(settingOf(power)));
    expect(at(120).clean).toBeGreaterThan(at(60).clean);
    expect(at(120).undamaged).toBeLessThan(at(60).undamaged);
  });

  it("without outcomes gives back the prior: E Φ(a) = 1/2 at score 0, and the exact mean at score s given b", () => {
    const fit = fitWindow([], { seed: 1, draws: 3000 });
    const features = { ...featuresOf(settingOf(60)), cleanScore: 0, undamagedScore: 1.5 };
    const p = fit.predict(features);
    expect(Math.abs(p.clean.mean - 0.5)).toBeLessThan(0.02);
    // E over a ~ N(0, 0.8²): Φ(b s/√(1 + 0.64)); over ln b ~ N(0, 0.645²) by 400 midpoints of the quantile
    let exact = 0;
    for (let k = 0; k < 400; k++) {
      const b = Math.exp(0.645 * normalQuantile((k + 0.5) / 400));
      exact += normalCdf((1.5 * b) / Math.sqrt(1.64)) / 400;
    }
    expect(Math.abs(p.undamaged.mean - exact)).toBeLessThan(0.015);
    expect(fit.patches).toBe(0);
  });

  it("agrees with integration on a grid for one patch: posterior mean of a at fixed everything else", () => {
    // Score 0 and groups at their centre: only a matters. P(clean | a) = 0.01 + 0.98 Φ(a), a ~ N(0, 0.8²).
    const features = { ...featuresOf(settingOf(50)), cleanScore: 0, undamagedScore: 0 };
    const one = [{ patch: 1, setting: settingOf(50), features, clean: true, undamaged: null }];
    const fit = fitWindow(one, { seed: 4, draws: 4000 });
    let top = 0;
    let bottom = 0;
    for (let a = -6; a <= 6; a += 0.001) {
      const weight = Math.exp(-0.5 * (a / 0.8) ** 2) * (0.01 + 0.98 * normalCdf(a));
      top += weight * normalCdf(a);
      bottom += weight;
    }
    expect(Math.abs(fit.predict(features).clean.mean - top / bottom)).toBeLessThan(0.01);
    // the ungraded side is still the prior
    expect(Math.abs(fit.predict(features).undamaged.mean - 0.5)).toBeLessThan(0.015);
    expect(fit.undamaged.graded).toBe(0);
  });

  it("learns where the process differs from the physics", () => {
    const weaker: TruthShift = { offset: -1.2, slope: 1, dose: 0 };
    const before = fitWindow([], { seed: 1, reference: [featuresOf(settingOf(60))] });
    const after = fitWindow(burn(spreadSettings(60), weaker, agrees, 21), { seed: 1 });
    const edge = featuresOf(settingOf(55));
    const truth = truthOf(edge, weaker, agrees).clean;
    expect(Math.abs(after.predict(edge).clean.mean - truth)).toBeLessThan(0.12);
    expect(Math.abs(before.predict(edge).clean.mean - truth)).toBeGreaterThan(0.25);
  });

  it("90 % intervals hold the truth in 0.80 to 0.97 of places over 72 made-up trials", () => {
    const random = createRandom(2024);
    let held = 0;
    let asked = 0;
    for (let trial = 0; trial < 72; trial++) {
      const shift = (): TruthShift => ({
        offset: 0.8 * random.normal(),
        slope: Math.exp(0.5 * random.normal()),
        dose: 0.4 * Math.abs(random.normal()),
      });
      const clean = shift();
      const undamaged = shift();
      const observations = burn(spreadSettings(24, 100 + trial), clean, undamaged, 500 + trial);
      const fit = fitWindow(observations, { seed: trial, draws: 400 });
      for (const power of [45, 70, 110, 150]) {
        const features = featuresOf(settingOf(power, 0.8 + random.next(), 1 + random.integer(2)));
        const truth = truthOf(features, clean, undamaged);
        const p = fit.predict(features);
        for (const side of ["clean", "undamaged"] as const) {
          asked++;
          if (truth[side] >= p[side].low && truth[side] <= p[side].high) held++;
        }
      }
    }
    expect(asked).toBe(576);
    expect(held / asked).toBeGreaterThan(0.8);
    expect(held / asked).toBeLessThan(0.97);
  });
});

describe("hard evidence", () => {
  const settings = spreadSettings(16);
  const grade = (clean: boolean | null, undamaged: boolean | null) =>
    settings.map((setting, i) => ({ patch: i + 1, setting, features: featuresOf(setting), clean, undamaged }));
  const inRange = (p: { mean: number; low: number; high: number }): void => {
    for (const value of [p.mean, p.low, p.high]) expect(value >= 0 && value <= 1).toBe(true);
    expect(p.low).toBeLessThanOrEqual(p.high);
  };

  it("all clean, all damaged, nothing graded: finite answers, wide where nothing was seen", () => {
    const width = (p: { low: number; high: number }): number => p.high - p.low;
    const weak = featuresOf(settingOf(20));
    const strong = featuresOf(settingOf(600));
    const good = fitWindow(grade(true, true), { seed: 1 });
    const bad = fitWindow(grade(false, false), { seed: 1 });
    const half = fitWindow(grade(true, null), { seed: 1 });
    const none = fitWindow(grade(null, null), { seed: 1 });
    for (const fit of [good, bad, half, none]) {
      for (const features of [weak, strong, featuresOf(settingOf(60))]) {
        const p = fit.predict(features);
        for (const spread of [p.clean, p.undamaged, p.both]) inRange(spread);
      }
      expect(fit.rHat).toBeLessThan(1.02);
    }
    // All clean says nothing of far weaker patches, all unclean nothing of far stronger ones.
    expect(width(good.predict(weak).clean)).toBeGreaterThan(0.3);
    expect(width(good.predict(strong).undamaged)).toBeGreaterThan(0.3);
    expect(width(bad.predict(strong).clean)).toBeGreaterThan(0.3);
    expect(none.patches).toBe(0);
    expect(half.undamaged.graded).toBe(0);
  });

  it("contradictory repeats give a chance near one half, not a crash", () => {
    const setting = settingOf(50);
    const observations = [true, false, true, false, true, false].map((clean, i) => ({
      patch: i + 1,
      setting,
      features: featuresOf(setting),
      clean,
      undamaged: true,
    }));
    const p = fitWindow(observations, { seed: 1 }).predict(featuresOf(setting));
    expect(Math.abs(p.clean.mean - 0.5)).toBeLessThan(0.1);
    expect(p.clean.high - p.clean.low).toBeGreaterThan(0.25);
  });

  it("one mis-graded patch far inside the window does not overturn the window", () => {
    const observations = burn(spreadSettings(40), agrees, agrees, 3, 0);
    const inside = settingOf(100, 1, 1);
    const wrong = { patch: 99, setting: inside, features: featuresOf(inside), clean: false, undamaged: true };
    const before = fitWindow(observations, { seed: 1 }).predict(featuresOf(inside)).clean.mean;
    const after = fitWindow([...observations, wrong], { seed: 1 }).predict(featuresOf(inside)).clean.mean;
    expect(after).toBeGreaterThan(before - 0.08);
  });

  it("refuses features and options that are no numbers", () => {
    const broken = { ...grade(true, true)[0]!, features: { ...featuresOf(settings[0]!), logDose: Number.NaN } };
    expect(() => fitWindow([broken], { seed: 1 })).toThrow("invalid logDose");
    expect(() => fitWindow([], { seed: 1, lapse: 0.7 })).toThrow("invalid lapse: 0.7");
    const fit = fitWindow([], { seed: 1 });
    expect(() => windowProbabilities(fit, broken.features)).toThrow("invalid logDose");
  });
});
