import { describe, expect, it } from "vitest";
import { mean, quantile } from "#numerics";
import type { Setting, SettingFeatures } from "#terms";
import {
  failureUpperBound,
  fitWindow,
  marginOf,
  meanProbabilities,
  meetsConfidence,
  nextBatch,
  nextPatches,
  noWindowWords,
  perHundred,
  recommend,
  robustProbabilities,
  robustScore,
  sameSetting,
  windowMap,
} from "#window";
import { agrees, burn, featuresOf, settingOf, spreadSettings } from "./synthetic.ts";

const observations = burn(spreadSettings(40), agrees, agrees, 3);
const fit = fitWindow(observations, { seed: 5 });
const candidateOf = (setting: Setting) => ({
  setting,
  features: featuresOf(setting),
  areaRate: (setting.speed * setting.lineSpacing) / setting.passes,
});
const candidates = spreadSettings(600, 99).map(candidateOf);
const scaled = (setting: Setting, delta: number): SettingFeatures =>
  featuresOf({ ...setting, power: setting.power * Math.exp(delta) });
const drift = (setting: Setting): SettingFeatures[] => [-0.1, 0, 0.1].map((delta) => scaled(setting, delta));

describe("recommendation", () => {
  it("never falls below the confidence asked for, and nothing acceptable is faster", () => {
    for (const confidence of [0.7, 0.8, 0.9, 0.95]) {
      const found = recommend({ fit, candidates, observations, confidence, drift });
      if (found === null) continue;
      expect(found.probabilityBoth).toBeGreaterThanOrEqual(confidence);
      const score = robustScore(robustProbabilities(fit, candidateOf(found.setting), drift));
      expect(score.mean).toBe(found.probabilityBoth);
      expect(score.lower).toBeGreaterThanOrEqual(confidence - 0.2);
      const faster = candidates
        .filter((c) => c.areaRate > found.areaRate / 0.98 + 1e-15)
        .filter((c) => meetsConfidence(robustScore(robustProbabilities(fit, c, drift)), confidence));
      expect(faster).toEqual([]);
    }
    expect(recommend({ fit, candidates, observations, confidence: 0.8, drift })).not.toBeNull();
  });

  it("takes the fastest that the rule lets through, out of any part of the candidates", () => {
    const few = fitWindow(observations.slice(0, 6), { seed: 5 });
    let answered = 0;
    for (let part = 0; part < 12; part++) {
      const some = candidates.slice(50 * part, 50 * part + 50);
      for (const confidence of [0.75, 0.85]) {
        const good = some.filter((c) => {
          const p = robustProbabilities(few, c, drift);
          return mean(p) >= confidence && quantile(p, 0.1) >= confidence - 0.2;
        });
        const found = recommend({ fit: few, candidates: some, observations: [], confidence, drift });
        expect(found === null).toBe(good.length === 0);
        if (found === null) continue;
        answered++;
        const fastest = Math.max(...good.map((c) => c.areaRate));
        expect(found.areaRate).toBeGreaterThanOrEqual(0.98 * fastest - 1e-15);
        expect(good.some((c) => c.setting === found.setting)).toBe(true);
      }
    }
    expect(answered).toBeGreaterThan(10);
    expect(meetsConfidence({ mean: 0.8, lower: 0.601 }, 0.8)).toBe(true);
    expect(meetsConfidence({ mean: 0.79, lower: 0.7 }, 0.8)).toBe(false);
    expect(meetsConfidence({ mean: 0.9, lower: 0.59 }, 0.8)).toBe(false);
  });

  it("gets slower, never faster, as more confidence is asked for", () => {
    const rates = [0.6, 0.7, 0.8, 0.9].map(
      (confidence) => recommend({ fit, candidates, observations, confidence, drift })?.areaRate ?? 0,
    );
    for (let i = 1; i < rates.length; i++) expect(rates[i]!).toBeLessThanOrEqual(rates[i - 1]! * 1.0205);
  });

  it("gives the margin through the caller's physics, and a proof only after three good repeats", () => {
    const scale = scaled;
    const first = recommend({ fit, candidates, observations, confidence: 0.8, drift, scale })!;
    expect(first.proven).toBe(false);
    expect(first.repeats).toBe(0);
    expect(first.words.join(" ")).toContain("not been burned yet");
    const repeat = (patch: number, clean: boolean | null) => ({
      patch,
      setting: { ...first.setting, power: first.setting.power * (1 + 1e-6) },
      features: first && featuresOf(first.setting),
      clean,
      undamaged: true,
    });
    const one = [candidateOf(first.setting)];
    const ask = (clean: (boolean | null)[]) =>
      recommend({
        fit,
        candidates: one,
        observations: [...observations, ...clean.map((c, i) => repeat(100 + i, c))],
        confidence: 0.8,
        drift,
      });
    expect(ask([true, true])!.proven).toBe(false);
    expect(ask([true, true, null])!.repeats).toBe(2);
    const three = ask([true, true, true])!;
    expect(three.proven).toBe(true);
    expect(three.words.join(" ")).toContain("Burned 3 times, 3 clean and undamaged");
    expect(three.words.join(" ")).toContain("below 64 %");
    expect(ask([true, true, true, false])!.proven).toBe(false);
    // Half of the repeats failed: passed over.
    expect(ask([true, false])).toBeNull();
  });

  it("says no more than 95 of 100, but keeps the number", () => {
    const sure = fitWindow(burn(spreadSettings(400), agrees, agrees, 8, 0), { seed: 1, draws: 200 });
    const found = recommend({ fit: sure, candidates, observations: [], confidence: 0.5 })!;
    const best = recommend({
      fit: sure,
      candidates: [candidateOf(settingOf(95, 1, 1))],
      observations: [],
      confidence: 0.9,
    })!;
    expect(best.probabilityBoth).toBeGreaterThan(0.95);
    expect(best.words[0]).toContain("95 of 100");
    for (const words of [...found.words, ...best.words]) expect(words).not.toMatch(/\b(9[6-9]|100) of 100/);
    expect(perHundred(0.999)).toBe("95 of 100");
    expect(perHundred(0.8749)).toBe("87 of 100");
  });

  it("is null with words that never say impossible, when nothing tried is good", () => {
    const weak = spreadSettings(50, 4).map((s) => candidateOf({ ...s, power: 8 }));
    expect(recommend({ fit, candidates: weak, observations, confidence: 0.8 })).toBeNull();
    const words = noWindowWords(fit, weak).join(" ");
    expect(words).toContain("No window found among the settings tried.");
    expect(words).toContain("residue is what stands in the way");
    expect(words).not.toContain("impossible");
    const strong = spreadSettings(50, 4).map((s) => candidateOf({ ...s, power: 900 }));
    expect(noWindowWords(fit, strong).join(" ")).toContain("damage is what stands in the way");
    expect(recommend({ fit, candidates: [], observations, confidence: 0.8 })).toBeNull();
  });

  it("works from the prior alone", () => {
    const prior = fitWindow([], { seed: 3 });
    const found = recommend({ fit: prior, candidates, observations: [], confidence: 0.6, scale: scaled });
    expect(found).not.toBeNull();
    expect(nextPatches({ fit: prior, candidates, observations: [], n: 5, confidence: 0.6, choice: found }).length).toBe(
      5,
    );
  });
});

describe("margin", () => {
  const sure = fitWindow(burn(spreadSettings(400), agrees, agrees, 8, 0), { seed: 1, draws: 200 });

  it("equals a fine walk over power, on both sides", () => {
    for (const power of [87, 92, 97]) {
      const setting = settingOf(power);
      const margin = marginOf(sure, featuresOf(setting), (delta) => scaled(setting, delta));
      let nearest = Number.POSITIVE_INFINITY;
      let edge = "";
      for (const sign of [-1, 1]) {
        for (let delta = 0; delta < 1.38; delta += 1e-3) {
          const p = meanProbabilities(sure, scaled(setting, sign * delta));
          if (Math.min(p.clean, p.undamaged) >= 0.95) continue;
          if (delta < nearest) {
            nearest = delta;
            edge = p.clean < p.undamaged ? "clean" : "undamaged";
          }
          break;
        }
      }
      expect(margin.logDose).not.toBeNull();
      expect(nearest).toBeGreaterThan(0.005);
      expect(Math.abs(margin.logDose! - nearest)).toBeLessThan(1.5e-3);
      expect(margin.nearestEdge).toBe(edge);
      const percent = edge === "clean" ? 100 * (1 - Math.exp(-nearest)) : 100 * (Math.exp(nearest) - 1);
      expect(Math.abs(margin.powerPercent! - percent)).toBeLessThan(0.3);
    }
  });

  it("is null outside the window and where no edge is in reach", () => {
    const weak = settingOf(20);
    expect(marginOf(sure, featuresOf(weak), (d) => scaled(weak, d))).toEqual({
      logDose: null,
      powerPercent: null,
      nearestEdge: null,
    });
    const inside = settingOf(95);
    expect(marginOf(sure, featuresOf(inside), () => featuresOf(inside)).nearestEdge).toBeNull();
  });
});

describe("next patches", () => {
  const choice = recommend({ fit, candidates, observations, confidence: 0.8, drift });

  it("are distinct, never burned before, with a sentence each, and the same again", () => {
    const few = fitWindow(observations.slice(0, 8), { seed: 5 });
    const input = {
      fit: few,
      candidates,
      observations: observations.slice(0, 8),
      n: 6,
      confidence: 0.8,
      drift,
      choice: null,
    };
    const batch = nextPatches(input);
    expect(batch.length).toBe(6);
    batch.forEach((patch, i) => {
      expect(observations.slice(0, 8).some((o) => sameSetting(o.setting, patch.setting))).toBe(false);
      for (const other of batch.slice(i + 1)) expect(sameSetting(other.setting, patch.setting)).toBe(false);
      expect(patch.reason).toMatch(/^[A-Z].*\.$/);
    });
    expect(nextPatches(input)).toEqual(batch);
  });

  it("repeats the choice first when little is left to gain, and not when much is", () => {
    const batch = nextBatch({ fit, candidates, observations, n: 4, confidence: 0.8, drift, choice });
    expect(batch.expectedGain).not.toBeNull();
    expect(batch.expectedGain!).toBeLessThan(0.3);
    expect(sameSetting(batch.patches[0]!.setting, choice!.setting)).toBe(true);
    expect(batch.patches.filter((p) => sameSetting(p.setting, choice!.setting)).length).toBe(1);
    const eager = nextBatch({ fit, candidates, observations, n: 4, confidence: 0.8, drift, choice, littleGain: -1 });
    expect(sameSetting(eager.patches[0]!.setting, choice!.setting)).toBe(false);
  });

  it("expects more gain from a slow choice than from the fastest good one", () => {
    const slow = candidates
      .filter((c) => c.areaRate < 0.4 * choice!.areaRate)
      .sort((a, b) => b.areaRate - a.areaRate)[0]!;
    const gain = (setting: Setting, areaRate: number): number =>
      nextBatch({ fit, candidates, observations, n: 1, confidence: 0.8, drift, choice: { setting, areaRate } })
        .expectedGain!;
    expect(gain(slow.setting, slow.areaRate)).toBeGreaterThan(gain(choice!.setting, choice!.areaRate) + 0.5);
  });

  it("takes fewer when the candidates run out and none when none are wanted", () => {
    const short = candidates.slice(0, 2);
    expect(nextPatches({ fit, candidates: short, observations, n: 5, confidence: 0.8, choice: null }).length).toBe(2);
    expect(nextPatches({ fit, candidates, observations, n: 0, confidence: 0.8, choice }).length).toBe(0);
    expect(nextPatches({ fit, candidates: [], observations, n: 3, confidence: 0.8, choice: null })).toEqual([]);
  });
});

describe("words and numbers around them", () => {
  it("bounds the failure share: 0 of k gives 1 − 0.05^(1/k), 0 of 10 gives 25.9 %, 0 of 299 just under 1 %", () => {
    expect(failureUpperBound(3, 0)).toBeCloseTo(1 - 0.05 ** (1 / 3), 12);
    expect(failureUpperBound(10, 0)).toBeCloseTo(0.2589, 4);
    expect(failureUpperBound(299, 0)).toBeLessThan(0.01);
    expect(failureUpperBound(298, 0)).toBeGreaterThan(0.01);
    // One-sided 95 % for 4 of 20 is the upper end of the two-sided 90 %: 0.401028 (NIST/SEMATECH e-Handbook, 7.2.4.1)
    expect(failureUpperBound(20, 4)).toBeCloseTo(0.401028117332, 9);
    expect(failureUpperBound(0, 0)).toBe(1);
    expect(failureUpperBound(2, 2)).toBe(1);
    expect(() => failureUpperBound(2, 3)).toThrow("invalid bad: 3");
  });

  it("maps row by row with y outer", () => {
    const map = windowMap({
      fit,
      featuresAt: (power, speed) => featuresOf(settingOf(power, speed)),
      xs: [40, 80, 160],
      ys: [0.5, 2],
      names: { x: "power", y: "speed" },
    });
    expect(map.probabilityClean.length).toBe(6);
    expect(map.probabilityClean[4]).toBe(meanProbabilities(fit, featuresOf(settingOf(80, 2))).clean);
    expect(map.probabilityUndamaged[2]).toBe(meanProbabilities(fit, featuresOf(settingOf(160, 0.5))).undamaged);
    expect(map.probabilityClean[0]!).toBeLessThan(map.probabilityClean[2]!);
  });

  it("tells settings apart by what reaches the part", () => {
    const setting = settingOf(100);
    expect(sameSetting(setting, { ...setting, power: 200, level: 0.5 })).toBe(true);
    expect(sameSetting(setting, { ...setting, passes: 2 })).toBe(false);
    expect(sameSetting(setting, { ...setting, frequency: null })).toBe(false);
    expect(sameSetting(setting, { ...setting, speed: 1.001 })).toBe(false);
  });
});
