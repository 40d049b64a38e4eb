import { describe, expect, it } from "vitest";
import { type ThresholdCurve, thresholdCurve } from "#window";
import { createRandom, normalQuantile } from "#numerics";

/** 25 runs of a go/no-go test of stents; published μ 600.383131 and σ 7.894673, intervals by R's optim. */
const level = [
  600, 650, 625, 612, 606, 590, 593, 611, 617, 599, 590, 616, 593, 584, 585, 615, 587, 613, 612, 589, 611, 590, 610,
  591, 609,
];
const failed = [0, 1, 1, 1, 1, 0, 0, 0, 1, 1, 0, 1, 1, 0, 0, 1, 0, 1, 1, 0, 1, 0, 1, 0, 1];
const stents = level.map((x, i) => ({ level: x, damaged: failed[i] === 1 }));
const curve = thresholdCurve(stents) as ThresholdCurve;

describe("threshold of a go/no-go test", () => {
  it("stents: μ 600.3832, σ 7.8946", () => {
    expect(curve.middle.value).toBeCloseTo(600.383161147, 6);
    expect(curve.spread.value).toBeCloseTo(7.89463274894, 6);
    expect(Math.abs(curve.middle.value - 600.383131)).toBeLessThan(1e-4);
    expect(Math.abs(curve.spread.value - 7.894673)).toBeLessThan(1e-4);
  });

  it("stents: likelihood-ratio intervals 594.170 to 606.266 and 4.6562 to 16.3298", () => {
    expect(curve.middle.low).toBeCloseTo(594.169943674, 4);
    expect(curve.middle.high).toBeCloseTo(606.266150859, 4);
    expect(curve.spread.low).toBeCloseTo(4.65617440098, 4);
    expect(curve.spread.high).toBeCloseTo(16.3297965096, 3);
  });

  it("levels of other shares lie on the line, with wider intervals farther out", () => {
    expect(curve.quantile(0.5).low).toBeCloseTo(curve.middle.low!, 6);
    const one = curve.quantile(0.01);
    expect(one.value).toBeCloseTo(600.383161147 + normalQuantile(0.01) * 7.89463274894, 5);
    expect(one.high! - one.low!).toBeGreaterThan(2 * (curve.middle.high! - curve.middle.low!));
  });

  it("places a level on the probit scale with its standard error, least near the middle", () => {
    expect(curve.latentAt(600.383161147).mean).toBeCloseTo(0, 6);
    expect(curve.latentAt(600.383161147 - 7.89463274894).mean).toBeCloseTo(1, 6);
    expect(curve.latentAt(600).deviation).toBeLessThan(curve.latentAt(580).deviation);
    // d(z at the middle)/dμ = 1/σ: the error of the middle by the curvature lies within its likelihood-ratio interval
    const error = curve.latentAt(600.383161147).deviation * 7.89463274894;
    expect(1.96 * error).toBeGreaterThan(5.5);
    expect(1.96 * error).toBeLessThan(6.5);
  });

  it("does not hang on the unit", () => {
    const inMicro = thresholdCurve(stents.map((s) => ({ ...s, level: s.level * 1e-6 }))) as ThresholdCurve;
    expect(inMicro.spread.value * 1e6).toBeCloseTo(curve.spread.value, 6);
    expect(inMicro.middle.high! * 1e6).toBeCloseTo(curve.middle.high!, 4);
    expect(inMicro.deviance.cloglog).toBeCloseTo(curve.deviance.cloglog, 8);
  });

  it("covers: 300 made-up tests of 40 sites", () => {
    let covered = 0;
    let fits = 0;
    for (let seed = 0; seed < 300; seed++) {
      const stream = createRandom(seed);
      const sites = Array.from({ length: 40 }, () => {
        const x = 2 + stream.next() * 2;
        return { level: x, damaged: x + 0.3 * stream.normal() > 3 };
      });
      const found = thresholdCurve(sites);
      if ("between" in found) continue;
      fits++;
      if ((found.middle.low ?? 0) < 3 && 3 < (found.middle.high ?? 9)) covered++;
    }
    expect(fits).toBeGreaterThan(290);
    expect(covered / fits).toBeGreaterThan(0.91);
    expect(covered / fits).toBeLessThan(0.98);
  });

  it("says between which levels a clean split leaves the threshold", () => {
    const split = thresholdCurve([1, 2, 3, 4, 5, 6].map((x) => ({ level: x, damaged: x > 3 })));
    expect(split).toMatchObject({ between: [3, 4] });
    if (!("between" in split)) throw new Error("not split");
    expect(split.firth!.middle).toBeCloseTo(3.5, 6);
    expect(split.firth!.spread).toBeGreaterThan(0);
  });

  it("refuses tests that hold no threshold", () => {
    const site = (x: number, damaged: boolean) => ({ level: x, damaged });
    expect(() => thresholdCurve([site(1, false)])).toThrow("invalid sites: 1");
    expect(() => thresholdCurve([1, 2, 3, 4].map((x) => site(x, false)))).toThrow("invalid sites: none damaged");
    expect(() => thresholdCurve([1, 1, 1, 1].map((x, i) => site(x, i > 1)))).toThrow("must not be the same throughout");
    expect(() => thresholdCurve([1, 2, 3, 4, 5].map((x) => site(x, x < 3)))).toThrow("less damage at higher levels");
    expect(() => thresholdCurve([1, 2, 3, 4, 5].map((x) => site(x, x < 3 || x === 4)))).toThrow("less damage");
  });
});
