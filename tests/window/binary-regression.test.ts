import { describe, expect, it } from "vitest";
import { normalCdf, normalPdf } from "#numerics";
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

describe("binary regression against published fits", () => {
  it("Challenger by logit: 15.0429 (7.3786), −0.2322 (0.1082)", () => {
    const fit = fitLogit(challenger);
    expectClose(fit.coefficients, [15.042901647702458, -0.232162744218597]);
    expectClose(fit.standardErrors, [7.378636384911244, 0.108236521649207], 1e-7);
    expectClose([fit.deviance, fit.covariance[0]![1]!], [20.3151926878668, -0.7963868253182415], 1e-7);
    expect(fit.converged).toBe(true);
    expect(fit.separated).toBe(false);
  });

  it("Challenger by probit and as 6 rings per flight", () => {
    const probit = fitProbit(challenger);
    expectClose(probit.coefficients, [8.77495424260422, -0.135096462009485]);
    expectClose(probit.standardErrors, [3.87244711237425, 0.05646598404372], 1e-4);
    const rings = fitLogit({ rows: challenger.rows, successes: distress, trials: distress.map(() => 6) });
    expectClose(rings.coefficients, [5.084977233038446, -0.115601166671935]);
    expectClose(rings.standardErrors, [3.0524855597765783, 0.0470238459189147], 1e-7);
  });

  it("beetles by logit, probit and cloglog", () => {
    const logit = fitLogit(beetles);
    expectClose(logit.coefficients, [-60.7174545616353, 34.2703257341469]);
    expectClose(logit.standardErrors, [5.18071146334079, 2.91214007063572], 1e-7);
    const probit = fitProbit(beetles);
    expectClose(probit.coefficients, [-34.9352588992114, 19.7279342113403]);
    expectClose([probit.deviance], [10.1197581130015]);
    const cloglog = fitCloglog(beetles);
    expectClose(cloglog.coefficients, [-39.5723106061378, 22.0411698207579]);
    expectClose([cloglog.deviance], [3.44643873302437]);
  });

  it("Firth's reduction of bias: Challenger, beetles, complete separation", () => {
    const firth = fitLogit(challenger, true);
    expectClose(firth.coefficients, [11.949515132942, -0.186041915524]);
    expectClose(firth.standardErrors, [6.2554386729127, 0.0915822631297], 1e-7);
    expectClose(fitLogit(beetles, true).coefficients, [-60.1137713236, 33.9301304511]);
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
