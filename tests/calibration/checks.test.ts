import {
  allParticles,
  calibrate,
  type PatchEvidence,
  posteriorChecks,
  predictiveChecks,
  shiftNames,
} from "#calibration";
import { createRandom } from "#numerics";
import { describe, expect, it } from "vitest";
import { classChances, lapseOf } from "../../src/calibration/likelihood.ts";
import { burnt, inventedRays, metals, patch, problemFor, residues } from "./synthetic.ts";

const DRAWS = 60;
const rays = inventedRays(10, DRAWS, 5);
const plan: PatchEvidence[] = Array.from({ length: 24 }, (_, i) => patch(i + 1, rays[i % 10]!, -0.05 * i));
const truth = new Float64Array(problemFor(plan, DRAWS).layout.size);
const patches = burnt(plan, 7, truth, createRandom(11));
const run = (of: readonly PatchEvidence[], particles = 1200, islands = 4) =>
  calibrate({ kind: "pulsed", draws: DRAWS, patches: of, seed: 3, particles, islands });
const posterior = run(patches);

describe("agreement of the islands", () => {
  it("is there after an update of a usual size", () => {
    const checks = posteriorChecks(posterior);
    expect(checks.quantities).toHaveLength(2 + shiftNames.length);
    expect(checks.settled).toBe(true);
    expect(checks.rHat).toBeLessThan(1.05);
    expect(checks.effectiveSampleSize).toBeGreaterThan(200);
    expect(checks.effectiveSampleSize).toBeLessThanOrEqual(1200);
    expect(checks.effectiveNoise).toBeCloseTo(Math.sqrt(2 / (3 * (2 + shiftNames.length))), 12);
    expect(checks.words[0]).toMatch(/^4 populations run apart from each other agree /);
  });

  it("counts independent particles as what they are, within its own noise", () => {
    const random = createRandom(4);
    const { size } = posterior.layout;
    // Particles of which each stands four times: a quarter of them is news.
    const islands = posterior.islands.map(({ count, draw }) => {
      const phi = new Float64Array(count * size);
      for (let m = 0; m < count; m++)
        for (let k = 0; k < size; k++) phi[m * size + k] = m % 4 === 0 ? random.normal() : phi[(m - 1) * size + k]!;
      return { count, draw: Int32Array.from(draw, () => 0), phi };
    });
    const { effectiveSampleSize } = posteriorChecks({ ...posterior, islands });
    expect(effectiveSampleSize).toBeGreaterThan(150);
    expect(effectiveSampleSize).toBeLessThan(600);
  });

  it("is missed where one island sits elsewhere, and says which number it is", () => {
    const { size, damage } = posterior.layout;
    const islands = posterior.islands.map((island, i) => ({
      ...island,
      phi: island.phi.map((v, k) => (i === 0 && k % size === damage ? v + 1.5 : v)),
    }));
    const checks = posteriorChecks({ ...posterior, islands });
    expect(checks.settled).toBe(false);
    expect(checks.rHat).toBeGreaterThan(1.2);
    const worst = checks.quantities.reduce((a, b) => (b.rHat > a.rHat ? b : a));
    expect(["damage threshold", "damage edge of the burned patches"]).toContain(worst.name);
    expect(checks.words[0]).toMatch(/do not quite agree/);
  });

  it("is claimed by no single island; without patches only the shifts are compared", () => {
    const alone = posteriorChecks(run(patches, 200, 1));
    expect(alone.settled).toBe(false);
    expect(alone.rHat).toBe(Number.POSITIVE_INFINITY);
    expect(alone.effectiveSampleSize).toBe(0);
    const before = posteriorChecks(run([]));
    expect(before.quantities).toHaveLength(shiftNames.length);
    expect(before.settled).toBe(true);
  });
});

/** Mean chance that a patch is read as clean, its own reading among what is known. */
function posteriorChances(of: typeof posterior, i: number): number {
  const { count, draw, phi } = allParticles(of);
  const six = new Float64Array(6);
  let sum = 0;
  for (let m = 0; m < count; m++) {
    const at = m * of.layout.size;
    classChances(of.problem, i, draw[m]!, phi, at, six);
    const lapse = lapseOf(of.problem.lapseMedian, phi[at + of.layout.lapse]!);
    sum += (1 - lapse) * six[0]! + lapse / 3;
  }
  return sum / count;
}

describe("what the posterior predicts of what was seen", () => {
  it("has the counts well inside where the patches come from the model", () => {
    const checks = predictiveChecks(posterior, 1);
    for (const count of [checks.clean, checks.damaged, checks.disagreements]) {
      expect(count.p).toBeGreaterThan(0.05);
      expect(count.seen).toBeGreaterThanOrEqual(count.low - 1);
      expect(count.seen).toBeLessThanOrEqual(count.high + 1);
    }
    expect(checks.clean.seen).toBe(patches.filter((p) => p.residue![0] === 1).length);
    expect(checks.damaged.seen).toBe(patches.filter((p) => p.metal![2] === 1).length);
    expect(checks.brierClean!).toBeLessThan(0.2);
    expect(predictiveChecks(posterior, 1)).toEqual(checks);
  });

  it("finds the patch that was graded the wrong way round", () => {
    // The first patch burned at full power: clean by all the others.
    const wrong = patches.map((p, i) => (i === 0 ? { ...p, residue: residues[2]! } : p));
    expect(patches[0]!.residue).toEqual([1, 0, 0]);
    const checks = predictiveChecks(run(wrong), 1);
    const found = checks.surprising.find((s) => s.patch === 1 && s.side === "layer");
    expect(found?.seen).toBe("not clean");
    expect(found!.chance).toBeLessThan(0.05);
    expect(predictiveChecks(posterior, 1).surprising.some((s) => s.patch === 1 && s.side === "layer")).toBe(false);
  });

  it("gives the chances of a patch that a posterior without it gives", () => {
    const all = run(patches, 4000);
    const checks = predictiveChecks(all, 1);
    const pulls = patches.map((_, k) => Math.abs(posteriorChances(all, k) - checks.patches[k]!.clean!));
    const i = pulls.indexOf(Math.max(...pulls));
    const others = patches.filter((_, k) => k !== i);
    // The patch itself ungraded is asked about and says nothing; a reading of all ones asks and weighs nothing.
    const without = run([...others, { ...patches[i]!, residue: null, metal: null }], 4000);
    const flat = { ...patches[i]!, residue: [1, 1, 1] as const, metal: [1, 1, 1] as const };
    const asked = { ...without, problem: { ...without.problem, patches: [...others, flat] } };
    const direct = predictiveChecks(asked, 1).patches[23]!;
    expect(Math.abs(direct.clean! - checks.patches[i]!.clean!)).toBeLessThan(0.06);
    expect(Math.abs(direct.undamaged! - checks.patches[i]!.undamaged!)).toBeLessThan(0.06);
    // The patch's own reading drew its chance further than leaving it out leaves it.
    expect(Math.abs(posteriorChances(all, i) - direct.clean!)).toBeGreaterThan(0.08);
  }, 60_000);

  it("wonders where damage comes and goes without regard to power", () => {
    const odd = patches.map((p, i) => ({ ...p, metal: metals[i % 2 === 0 ? 2 : 0]!, ray: rays[0]!, x: -0.4 }));
    const checks = predictiveChecks(run(odd), 1);
    const steady = predictiveChecks(run(odd.map((p) => ({ ...p, metal: metals[0]! }))), 1);
    expect(checks.disagreements.seen).toBeGreaterThan(steady.disagreements.seen + 5);
    expect(checks.brierUndamaged!).toBeGreaterThan(steady.brierUndamaged! + 0.1);
  });

  it("has nothing to say of nothing, and skips what was not graded", () => {
    const nothing = predictiveChecks(run([]), 1);
    expect(nothing.clean).toEqual({ seen: 0, low: 0, median: 0, high: 0, p: 1 });
    expect([nothing.brierClean, nothing.brierUndamaged]).toEqual([null, null]);
    const half = predictiveChecks(run(patches.map((p) => ({ ...p, metal: null }))), 1);
    expect(half.damaged).toEqual({ seen: 0, low: 0, median: 0, high: 0, p: 1 });
    expect(half.patches.every((p) => p.undamaged === null && p.seenUndamaged === null && p.clean !== null)).toBe(true);
  });
});
