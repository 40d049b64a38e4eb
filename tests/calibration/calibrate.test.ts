import {
  allParticles,
  calibrate,
  type CalibrateInput,
  calibrateFurther,
  type PatchEvidence,
  type Posterior,
  shiftNames,
} from "#calibration";
import { createRandom, mean, standardDeviation } from "#numerics";
import { InvalidInput } from "#units";
import { describe, expect, it } from "vitest";
import { fastNormals } from "../../src/calibration/fast-normals.ts";
import { layoutOf, logLikelihood, problemOf } from "../../src/calibration/likelihood.ts";
import { inventedRays, metals, patch, ray, residues } from "./synthetic.ts";

const [clean, partly, mostly] = residues;
const [whole, , damaged] = metals;

const run = (draws: number, patches: readonly PatchEvidence[], more: Partial<CalibrateInput> = {}) =>
  calibrate({ kind: "pulsed", draws, patches, seed: 4, particles: 4000, ...more });

/** Chances of the draws and mean and spread of one coordinate. */
function summary(posterior: Posterior, coordinates: readonly number[]) {
  const { count, draw, phi } = allParticles(posterior);
  const draws = Array.from({ length: posterior.problem.draws }, (_, j) => draw.filter((d) => d === j).length / count);
  const of = (k: number) => Float64Array.from({ length: count }, (_, m) => phi[m * posterior.layout.size + k]!);
  return {
    draws,
    means: coordinates.map((k) => mean(of(k))),
    spreads: coordinates.map((k) => standardDeviation(of(k))),
  };
}

/** The same by weighing `samples` samples of the prior by their likelihood: no tempering, no moves. */
function byPrior(draws: number, patches: readonly PatchEvidence[], coordinates: readonly number[], samples = 200_000) {
  const layout = layoutOf(1, 1);
  const problem = problemOf(patches, "pulsed", draws, layout);
  const normal = fastNormals(createRandom(77));
  const phi = new Float64Array(layout.size);
  const weight = new Array<number>(draws).fill(0);
  const sum = coordinates.map(() => 0);
  const square = coordinates.map(() => 0);
  let total = 0;
  for (let s = 0; s < samples; s++) {
    for (let k = 0; k < phi.length; k++) phi[k] = normal();
    const w = Math.exp(logLikelihood(problem, s % draws, phi, 0));
    weight[s % draws]! += w;
    total += w;
    coordinates.forEach((k, c) => {
      sum[c]! += w * phi[k]!;
      square[c]! += w * phi[k]! ** 2;
    });
  }
  const means = sum.map((v) => v / total);
  return {
    draws: weight.map((w) => w / total),
    means,
    spreads: square.map((v, c) => Math.sqrt(v / total - means[c]! ** 2)),
  };
}

function expectAlike(a: ReturnType<typeof summary>, b: ReturnType<typeof summary>, within: number) {
  for (const [j, p] of a.draws.entries()) expect(Math.abs(p - b.draws[j]!)).toBeLessThan(within);
  for (const [c, m] of a.means.entries()) expect(Math.abs(m - b.means[c]!)).toBeLessThan(1.5 * within);
  for (const [c, s] of a.spreads.entries()) expect(Math.abs(s / b.spreads[c]! - 1)).toBeLessThan(1.5 * within);
}

/** Removal and damage threshold, ln of both scatters, lapse. */
const watched = [0, 8, 14, 15, 16];

describe("the posterior against brute force", () => {
  const three = ray({ clean: [-1.1, -0.7, -0.5], damage: [-0.5, -0.25, -0.3] });
  const other = ray({ clean: [-0.5, -0.8, -0.6], damage: [-0.4, -0.1, -0.2] }, { time: Math.log(200e-9) });
  const patches = [
    patch(1, three, -0.8, { residue: mostly!, metal: whole! }),
    patch(2, three, -0.45, { residue: clean!, metal: whole! }),
    patch(3, other, -0.6, { residue: clean!, metal: whole! }),
    patch(4, other, -0.1, { residue: clean!, metal: damaged! }),
    patch(5, three, -0.55, { residue: partly!, metal: whole! }),
  ];

  it("gives the same chances of the versions and the same shifts", () => {
    const brute = byPrior(3, patches, watched);
    // The case is a telling one: the prior is far from it.
    expect(Math.max(...brute.draws)).toBeGreaterThan(0.5);
    expect(Math.min(...brute.spreads)).toBeLessThan(0.8);
    expectAlike(summary(run(3, patches), watched), brute, 0.04);
  });

  it("holds for two versions whose edges lie far apart, between which only a move of the thresholds leads", () => {
    const apart = ray({ clean: [-1.0, -0.65], damage: [-0.5, -0.2] });
    const close = [-0.9, -0.8, -0.7].map((x, i) =>
      patch(i, apart, x, { residue: i === 0 ? mostly! : clean!, metal: whole! }),
    );
    const again = close.map((p, i) => ({ ...p, patch: 10 + i }));
    const brute = byPrior(2, [...close, ...again], watched);
    expect(Math.min(...brute.draws)).toBeGreaterThan(0.1);
    expectAlike(summary(run(2, [...close, ...again]), watched), brute, 0.04);
  });

  it("comes out the same in two batches as in one, plates that appear late included", () => {
    const late = patches.map((p, i) => (i >= 3 ? { ...p, coupon: 1, grader: 1 } : p));
    const whole5 = run(3, late);
    const first = run(3, late.slice(0, 3), { seed: 8 });
    const further = calibrateFurther(first, late.slice(3), 9);
    expect(further.layout).toEqual(whole5.layout);
    expect(further.problem.patches.map((p) => p.patch)).toEqual([1, 2, 3, 4, 5]);
    expectAlike(summary(further, watched), summary(whole5, watched), 0.05);
  });

  it("starts from what earlier jobs taught of a shift", () => {
    const shifts = new Map([[shiftNames[0]!, { mean: 1.5, spread: 0.2 }]]);
    const taught = summary(run(3, [], { shifts }), watched);
    expect(taught.means[0]!).toBeCloseTo(1.5, 1);
    expect(taught.spreads[0]!).toBeCloseTo(0.2, 1);
    const after = summary(run(3, patches, { shifts }), watched);
    // By hand: prior N(1.5, 0.2²) in the place of N(0, 1) is a factor on the posterior density of the first shift.
    expect(after.means[0]!).toBeGreaterThan(1.2);
    expect(after.spreads[0]!).toBeLessThan(0.22);
  });
});

describe("the posterior where little or nothing fits", () => {
  const rays = inventedRays(8, 40, 5);
  const spread = (residue: (i: number) => PatchEvidence["residue"], metal: (i: number) => PatchEvidence["metal"]) =>
    Array.from({ length: 16 }, (_, i) =>
      patch(i, rays[i % 8]!, -0.1 * (i % 12), { residue: residue(i), metal: metal(i) }),
    );
  const small = { particles: 800 };

  it("is the prior without patches", () => {
    const { draws, means, spreads } = summary(run(40, []), watched);
    for (const p of draws) expect(Math.abs(p - 1 / 40)).toBeLessThan(0.003);
    for (const m of means) expect(Math.abs(m)).toBeLessThan(0.06);
    for (const s of spreads) expect(Math.abs(s - 1)).toBeLessThan(0.04);
  });

  const cases: readonly (readonly [string, readonly PatchEvidence[]])[] = [
    [
      "all clean and whole",
      spread(
        () => clean!,
        () => whole!,
      ),
    ],
    [
      "all covered and damaged",
      spread(
        () => mostly!,
        () => damaged!,
      ),
    ],
    [
      "ungraded",
      spread(
        () => null,
        () => null,
      ),
    ],
    [
      "contradictory repeats",
      spread(
        (i) => (i % 2 ? clean! : mostly!),
        (i) => (i % 2 ? whole! : damaged!),
      ).map((p) => ({ ...p, ray: rays[0]!, x: -0.5 })),
    ],
    ["one patch", [patch(1, rays[0]!, -0.4, { residue: clean!, metal: damaged! })]],
  ];
  it.each(cases)("stays finite and unsure: %s", (_, patches) => {
    const posterior = run(40, patches, small);
    const all = allParticles(posterior);
    expect(all.phi.every(Number.isFinite)).toBe(true);
    expect(all.draw.every((d) => d >= 0 && d < 40)).toBe(true);
    const { spreads } = summary(posterior, [1, 4, 9, 12]);
    // Shifts that these patches hardly touch keep most of their spread.
    for (const s of spreads) expect(s).toBeGreaterThan(0.5);
  });

  it("is the same for the same seed and another for another", () => {
    const patches = cases[0]![1];
    const same = (a: Posterior, b: Posterior) => {
      const [one, two] = [allParticles(a), allParticles(b)];
      return one.draw.every((d, i) => d === two.draw[i]) && one.phi.every((v, i) => v === two.phi[i]);
    };
    const once = run(40, patches, small);
    expect(same(once, run(40, patches, small))).toBe(true);
    expect(same(once, run(40, patches, { ...small, seed: 5 }))).toBe(false);
  });
});

describe("what is refused", () => {
  const one = ray({ clean: [-1, -0.5], damage: [0, 0] });
  const good = patch(1, one, -0.5, { residue: clean! });
  const message = (patches: readonly PatchEvidence[], more: Partial<CalibrateInput> = {}) => {
    try {
      run(2, patches, { particles: 200, ...more });
    } catch (e) {
      expect(e).toBeInstanceOf(InvalidInput);
      return (e as Error).message;
    }
    return "nothing";
  };

  it("is said in the house form", () => {
    expect(message([good])).toBe("nothing");
    expect(message([good, good])).toBe("invalid patch: 1 (must come once)");
    expect(message([{ ...good, x: Number.NaN }])).toBe("invalid power of patch 1: not a number (must be a number)");
    expect(message([{ ...good, thickness: Number.POSITIVE_INFINITY }])).toMatch(/^invalid thickness of patch 1: /);
    expect(message([{ ...good, coupon: -1 }])).toMatch(/^invalid plate of patch 1: -1 /);
    expect(message([{ ...good, grader: 0.5 }])).toMatch(/^invalid grader of patch 1: 0.5 /);
    expect(message([{ ...good, residue: [Number.NaN, 0, 1] }])).toMatch(/^invalid reading of patch 1: not a number /);
    expect(message([{ ...good, metal: [2, 0, -1] }])).toMatch(/^invalid reading of patch 1: 2 /);
    expect(message([good], { draws: 3 })).toBe("invalid draws of patch 1: 2 (must be 3)");
    expect(message([good], { particles: 10 })).toMatch(/^invalid particles: 10 /);
    expect(message([good], { islands: 0 })).toMatch(/^invalid islands: 0 /);
    expect(message([good], { lapse: 0.9 })).toMatch(/^invalid lapse: 0.9 /);
    expect(message([good], { shifts: new Map([[shiftNames[0]!, { mean: 0, spread: 0 }]]) })).toMatch(
      /^invalid spread of removal threshold: 0 /,
    );
  });

  it("is refused of further patches too", () => {
    const before = run(2, [good], { particles: 200 });
    expect(() => calibrateFurther(before, [good], 1)).toThrow("invalid patch: 1 (must come once)");
    expect(() => calibrateFurther(before, [patch(2, ray({ clean: [0], damage: [0] }), 0)], 1)).toThrow(InvalidInput);
  });
});
