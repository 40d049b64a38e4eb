import { describe, expect, it } from "vitest";
import { expit, findRoot, normalCdf, normalPdf } from "#numerics";
import { fitCloglog, fitLogit, fitProbit } from "#window";

/** Challenger O-rings: Dalal, Fowlkes and Hoadley, J. Am. Stat. Assoc. 84 (1989); values by R 4.2.2 glm, eps 1e-14. */
const temperature = [66, 70, 69, 68, 67, 72, 73, 70, 57, 63, 70, 78, 67, 53, 67, 75, 70, 81, 76, 79, 75, 76, 58];
const distress = [0, 1, 0, 0, 0, 0, 0, 0, 1, 1, 1, 0, 0, 2, 0, 0, 0, 0, 0, 0, 2, 0, 1];
const challenger = {
  rows: temperature.map((t) => [1, t]),
  successes: distress.map((d) => (d > 0 ? 1 : 0)),
};

/** Beetles: Bliss, Annals of Applied Biology 22 (1935); values by R 4.2.2 glm. */
const beetles = {
  rows: [1.6907, 1.7242, 1.7552, 1.7842, 1.8113, 1.8369, 1.861, 1.8839].map((x) => [1, x]),
  trials: [59, 60, 62, 56, 63, 59, 62, 60],
  successes: [6, 13, 18, 28, 52, 53, 61, 60],
};

function expectClose(actual: readonly number[], wanted: readonly number[], relative = 1e-8): void {
  expect(actual.length).toBe(wanted.length);
  actual.forEach((value, i) => {
    expect(Math.abs(value / wanted[i]! - 1)).toBeLessThan(relative);
  });
}

const at = (coefficients: readonly number[], x: number): number => coefficients[0]! + coefficients[1]! * x;

describe("binary regression against published fits", () => {
  it("Challenger by logit: 15.0429 (7.3786), −0.2322 (0.1082)", () => {
    const fit = fitLogit(challenger);
    expectClose(fit.coefficients, [15.042901647702458, -0.232162744218597]);
    expectClose(fit.standardErrors, [7.378636384911244, 0.108236521649207], 1e-7);
    expectClose([fit.deviance, fit.covariance[0]![1]!], [20.3151926878668, -0.7963868253182415], 1e-7);
    expect(fit.converged).toBe(true);
    expect(fit.separated).toBe(false);
    // 31 °F, the morning of the launch
    expectClose([expit(at(fit.coefficients, 31))], [0.999608782884932]);
    const { covariance } = fit;
    const variance = covariance[0]![0]! + 2 * 31 * covariance[0]![1]! + 31 * 31 * covariance[1]![1]!;
    // glm's covariance is that of the step before its last
    expectClose([Math.sqrt(variance)], [4.04062604641009], 1e-5);
    expectClose(
      [fitLogit({ rows: challenger.rows.map(() => [1]), successes: challenger.successes }).deviance],
      [28.2671527342935],
    );
  });

  it("Challenger by logit: likelihood-ratio interval of the slope −0.5155 to −0.0608", () => {
    const fit = fitLogit(challenger);
    // R's own interval comes from a spline over the profile: four places. With the slope held, the constant alone is fitted: its score Σ(y − p) = 0.
    const profile = (slope: number): number => {
      const held = (c: number) => challenger.rows.map(([, t]) => expit(c + slope * (t! - 70)));
      const constant = findRoot((c) => held(c).reduce((sum, p, i) => sum + challenger.successes[i]! - p, 0), -50, 50);
      return held(constant).reduce((sum, p, i) => sum - 2 * Math.log(challenger.successes[i] === 1 ? p : 1 - p), 0);
    };
    const excess = (slope: number): number => profile(slope) - fit.deviance - 3.841458820694124;
    expect(profile(fit.coefficients[1]!)).toBeCloseTo(fit.deviance, 10);
    expect(findRoot(excess, -1, fit.coefficients[1]!)).toBeCloseTo(-0.515471751479322, 4);
    expect(findRoot(excess, fit.coefficients[1]!, 0.1)).toBeCloseTo(-0.0608207613905525, 4);
  });

  it("Challenger by probit and as 6 rings per flight", () => {
    const probit = fitProbit(challenger);
    expectClose(probit.coefficients, [8.77495424260422, -0.135096462009485]);
    expectClose([probit.deviance], [20.3777393185313]);
    expectClose(probit.standardErrors, [3.87244711237425, 0.05646598404372], 1e-4);
    const rings = fitLogit({ rows: challenger.rows, successes: distress, trials: distress.map(() => 6) });
    expectClose(rings.coefficients, [5.084977233038446, -0.115601166671935]);
    expectClose(rings.standardErrors, [3.0524855597765783, 0.0470238459189147], 1e-7);
    expectClose([rings.deviance, expit(at(rings.coefficients, 31))], [18.0863267424974, 0.817774406282757]);
  });

  it("beetles by logit, probit and cloglog", () => {
    const logit = fitLogit(beetles);
    expectClose(logit.coefficients, [-60.7174545616353, 34.2703257341469]);
    expectClose(logit.standardErrors, [5.18071146334079, 2.91214007063572], 1e-7);
    const probit = fitProbit(beetles);
    expectClose(probit.coefficients, [-34.9352588992114, 19.7279342113403]);
    expectClose([logit.deviance, probit.deviance], [11.2322310974193, 10.1197581130015]);
    expectClose(probit.standardErrors, [2.64791779853255, 1.48723504085508], 1e-4);
    for (const [fit, middle, error] of [
      [logit, 1.77172096444757, 0.00385805531143586],
      [probit, 1.77085236218648, 0.00380333680679781],
    ] as const) {
      const [a, b] = fit.coefficients as [number, number];
      const [[vA, vAB], [, vB]] = fit.covariance as [[number, number], [number, number]];
      expectClose([-a / b], [middle], 1e-9);
      expectClose([Math.sqrt(vA + (2 * vAB * -a) / b + vB * (a / b) ** 2) / b], [error], 1e-4);
    }
    const cloglog = fitCloglog(beetles);
    expectClose(cloglog.coefficients, [-39.5723106061378, 22.0411698207579]);
    expectClose([cloglog.deviance], [3.44643873302437]);
    expectClose(cloglog.standardErrors, [3.2402726196663, 1.79935519097761], 1e-4);
  });

  it("bioassay of four doses: 0.8466 (1.0191), 7.7488 (4.8728), by Firth 0.2895, 4.1057", () => {
    // Racine et al., Appl. Stat. 35 (1986), in Gelman et al., Bayesian Data Analysis; values by R 4.2.2 glm
    const bioassay = {
      rows: [-0.86, -0.3, -0.05, 0.73].map((x) => [1, x]),
      trials: [5, 5, 5, 5],
      successes: [0, 1, 3, 5],
    };
    const fit = fitLogit(bioassay);
    expectClose(fit.coefficients, [0.846580228090551, 7.748817150587725]);
    expectClose(fit.standardErrors, [1.01908541625808, 4.87276769590368], 1e-6);
    expectClose([fit.covariance[0]![1]!], [3.54598678281623], 1e-6);
    expectClose([fit.deviance], [0.0547423724423735], 1e-7);
    expectClose(fitLogit(bioassay, true).coefficients, [0.289525880417, 4.105675345169]);
  });

  it("Firth's reduction of bias: Challenger, beetles, complete separation", () => {
    const firth = fitLogit(challenger, true);
    expectClose(firth.coefficients, [11.949515132942, -0.186041915524]);
    expectClose(firth.standardErrors, [6.2554386729127, 0.0915822631297], 1e-7);
    expectClose(fitLogit(beetles, true).coefficients, [-60.1137713236, 33.9301304511]);
    expectClose(fitLogit(beetles, true).standardErrors, [5.13114171942, 2.88411866347], 1e-7);
    // x = 1…6, y = 0,0,0,1,1,1; R brglm2
    const split = { rows: [1, 2, 3, 4, 5, 6].map((x) => [1, x]), successes: [0, 0, 0, 1, 1, 1] };
    const fit = fitLogit(split, true);
    expectClose(fit.coefficients, [-3.95119370997, 1.12891248856]);
    expectClose(fit.standardErrors, [3.187025293521, 0.854908336688], 1e-7);
    expect(fit.separated).toBe(false);
  });

  it("Firth for the constant alone: (y + ½)/(n + 1) by logit; by probit the root of (y − nΦ)φ/(Φ(1 − Φ)) = η/2", () => {
    const one = (y: number) => ({ rows: [[1]], successes: [y], trials: [5] });
    const logit = fitLogit(one(1), true).coefficients[0]!;
    expect(1 / (1 + Math.exp(-logit))).toBeCloseTo(1.5 / 6, 10);
    const eta = fitProbit(one(1), true).coefficients[0]!;
    const share = normalCdf(eta);
    expect(((1 - 5 * share) * normalPdf(eta)) / (share * (1 - share))).toBeCloseTo(eta / 2, 8);
    expect(fitProbit(one(4), true).coefficients[0]!).toBeCloseTo(-eta, 8);
  });

  it("says so when outcomes split cleanly, instead of giving numbers for real", () => {
    const split = { rows: [1, 2, 3, 4, 5, 6].map((x) => [1, x]), successes: [0, 0, 0, 1, 1, 1] };
    for (const fit of [fitLogit(split), fitProbit(split)]) {
      expect(fit.separated).toBe(true);
      expect(fit.converged).toBe(false);
    }
  });

  it("refuses counts that do not fit and columns that depend on each other", () => {
    expect(() => fitLogit({ rows: [[1, 2]], successes: [2] })).toThrow("invalid successes of row 1: 2");
    expect(() => fitLogit({ rows: [], successes: [] })).toThrow("invalid rows: 0");
    expect(() =>
      fitLogit({
        rows: [
          [1, 1],
          [1, 1],
        ],
        successes: [0, 1],
      }),
    ).toThrow("invalid columns");
    expect(() => fitLogit({ rows: [[1, Number.NaN]], successes: [1] })).toThrow("invalid row 1");
  });
});
