import type { PatchEvidence } from "#calibration";
import { createRandom } from "#numerics";
import { describe, expect, it } from "vitest";
import { logLikelihood } from "../../src/calibration/likelihood.ts";
import { Weigher } from "../../src/calibration/weigher.ts";
import { inventedRays, metals, patch, problemFor, residues } from "./synthetic.ts";

const rays = inventedRays(7, 6, 2);
const random = createRandom(3);
const patches: PatchEvidence[] = Array.from({ length: 120 }, (_, i) =>
  patch(i, rays[i % 7]!, -1.4 * random.next(), {
    coupon: i % 4,
    grader: i % 2,
    thickness: 0.1 * random.normal(),
    residue: i % 9 === 0 ? null : i % 5 === 0 ? [0.5, 0.3, 0.2] : residues[i % 3]!,
    metal: i % 11 === 0 ? null : metals[(i + 1) % 3]!,
  }),
);
const problem = problemFor(patches, 6);
const { size } = problem.layout;
const row = () => Float64Array.from({ length: size }, () => random.normal());

describe("the likelihood laid out for speed", () => {
  const weigher = new Weigher(problem);
  const shifts = new Float64Array(240);
  const weigh = (version: number, phi: Float64Array, first = 0, last = 120) => {
    weigher.shifts(phi, 0, shifts);
    weigher.noise(phi, 0);
    return weigher.weigh(version, shifts, 0, first, last);
  };

  it("gives the numbers of the plain one to rounding, over all patches and over a part", () => {
    for (let round = 0; round < 60; round++) {
      const phi = row();
      const plain = logLikelihood(problem, round % 6, phi, 0);
      expect(Math.abs(weigh(round % 6, phi) / plain - 1)).toBeLessThan(1e-9);
      const part = logLikelihood(problem, round % 6, phi, 0, 30, 77);
      expect(Math.abs(weigh(round % 6, phi, 30, 77) / part - 1)).toBeLessThan(1e-9);
    }
  });

  it("agrees where edges come out of order and a class has no chance", () => {
    const usual = rays[0]!;
    const odd = { ...usual, half: usual.clean.map((c) => c + 0.1), melt: usual.damage.map((d) => d + 0.1) };
    const mixed = problemFor(
      patches.map((p) => ({ ...p, ray: odd })),
      6,
    );
    const of = new Weigher(mixed);
    for (let round = 0; round < 10; round++) {
      const phi = row();
      of.shifts(phi, 0, shifts);
      of.noise(phi, 0);
      expect(of.weigh(2, shifts, 0, 0, 120) / logLikelihood(mixed, 2, phi, 0)).toBeCloseTo(1, 9);
    }
  });

  it("does not underflow where every patch speaks against a version", () => {
    const phi = new Float64Array(size);
    phi[problem.layout.lapse] = -4;
    phi[0] = 8;
    const against = patches.map((p) => ({ ...p, residue: residues[0]!, metal: metals[2]!, x: -3 }));
    const far = new Weigher(problemFor(against, 6));
    far.shifts(phi, 0, shifts);
    far.noise(phi, 0);
    const found = far.weigh(0, shifts, 0, 0, 120);
    expect(found).toBeLessThan(-900);
    expect(found / logLikelihood(problemFor(against, 6), 0, phi, 0)).toBeCloseTo(1, 9);
  });

  it("puts another version in the place of one with shifts that its row of coordinates would give", () => {
    const phi = row();
    const { layout, removalLikeness, damageLikeness } = problem;
    const moved = Float64Array.from(phi);
    removalLikeness[4]!.forEach((v, k) => {
      moved[layout.removal + k]! -= v - removalLikeness[1]![k]!;
    });
    damageLikeness[4]!.forEach((v, k) => {
      moved[layout.damage + k]! -= v - damageLikeness[1]![k]!;
    });
    weigher.shifts(moved, 0, shifts);
    const before = new Float64Array(240);
    weigher.shifts(phi, 0, before);
    const like = [weigher.likeness(1), weigher.likeness(4)] as const;
    for (let i = 0; i < 240; i++) expect(shifts[i]!).toBeCloseTo(before[i]! - (like[1][i]! - like[0][i]!), 10);
  });
});
