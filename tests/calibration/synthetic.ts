import type { MetalReading, PatchEvidence, ResidueReading } from "#calibration";
import type { Ray } from "#edges";
import { createRandom, type RandomStream } from "#numerics";
import type { Setting } from "#terms";
import { classChances, lapseOf, layoutOf, type Problem, problemOf } from "../../src/calibration/likelihood.ts";

export const slopes = { speed: 1, spot: 1, thickness: 0.5 };

/** A pulsed setting at full power; nothing below looks at more of it than its identity. */
export const pulsed = (speed: number): Setting => ({
  power: 500,
  level: 1,
  duty: 1,
  frequency: 50e3,
  pulseWidth: 100e-9,
  speed,
  lineSpacing: 60e-6,
  passes: 1,
  defocus: 0,
  lens: "f160",
});

/** A ray with given edges and groups; `dose` e.g. ln(5e4) puts the dose shape at 0 where x is 0. */
export function ray(
  edges: { readonly clean: readonly number[]; readonly damage: readonly number[] },
  groups: Partial<Ray["groups"]> = {},
  areaRate = 1e-3,
): Ray {
  return {
    setting: pulsed(areaRate * 1000),
    areaRate,
    groups: {
      time: Math.log(100e-9),
      count: Math.log(10),
      passes: 0,
      spot: Math.log(100e-6),
      spacing: Math.log(0.4),
      dose: Math.log(5e4),
      power: Math.log(150),
      ...groups,
    },
    half: Float64Array.from(edges.clean, (c) => c - 0.2),
    clean: Float64Array.from(edges.clean),
    melt: Float64Array.from(edges.damage, (d) => d - 0.15),
    damage: Float64Array.from(edges.damage),
    slopes: { clean: slopes, damage: slopes },
  };
}

/**
 * Rays of an invented physics: each version has its own thresholds, pulse-width and overlap exponents, and the rays lie
 * spread over the groups. Nothing of the product's own physics is in it.
 */
export function inventedRays(count: number, draws: number, seed: number): Ray[] {
  const random = createRandom(seed);
  const versions = Array.from({ length: draws }, () => ({
    clean: -0.9 + 0.35 * random.normal(),
    damage: -0.3 + 0.25 * random.normal(),
    time: 0.25 + 0.1 * random.normal(),
    count: -0.3 + 0.1 * random.normal(),
  }));
  return Array.from({ length: count }, (_, r) => {
    const time = Math.log(100e-9) + 1.2 * (random.next() - 0.5) * 2;
    const events = Math.log(10) + 1.2 * (random.next() - 0.5) * 2;
    const dt = time - Math.log(100e-9);
    const dn = events - Math.log(10);
    const made = ray(
      {
        clean: versions.map((v) => v.clean + v.time * dt + v.count * dn),
        damage: versions.map((v) => v.damage + 0.4 * dt - 0.15 * dn),
      },
      {
        time,
        count: events,
        passes: Math.log(1 + (r % 3)),
        spot: Math.log(100e-6) + 0.4 * (random.next() - 0.5),
        dose: Math.log(5e4) + random.next() - 0.5,
        power: Math.log(300),
      },
      1e-3 * (1 + r),
    );
    return { ...made, setting: pulsed(1 + r) };
  });
}

export const residues: readonly ResidueReading[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];
export const metals: readonly MetalReading[] = residues;

export function patch(number: number, of: Ray, x: number, more: Partial<PatchEvidence> = {}): PatchEvidence {
  return { patch: number, ray: of, x, coupon: 0, grader: 0, thickness: 0, residue: null, metal: null, ...more };
}

/** Patches with the verdicts that one truth gives them, lapses of the grader included. */
export function burnt(patches: readonly PatchEvidence[], draw: number, phi: Float64Array, random: RandomStream) {
  const problem = problemFor(patches, patches[0]!.ray.clean.length);
  const six = new Float64Array(6);
  const lapse = lapseOf(problem.lapseMedian, phi[problem.layout.lapse]!);
  const classOf = (at: number): 0 | 1 | 2 => {
    if (random.next() < lapse) return random.integer(3) as 0 | 1 | 2;
    const u = random.next();
    return u < six[at]! ? 0 : u < six[at]! + six[at + 1]! ? 1 : 2;
  };
  return patches.map((p, i): PatchEvidence => {
    classChances(problem, i, draw, phi, 0, six);
    return { ...p, residue: residues[classOf(0)]!, metal: metals[classOf(3)]! };
  });
}

export function problemFor(patches: readonly PatchEvidence[], draws: number): Problem {
  const most = (read: (p: PatchEvidence) => number) => patches.reduce((m, p) => Math.max(m, read(p) + 1), 1);
  const layout = layoutOf(
    most((p) => p.coupon),
    most((p) => p.grader),
  );
  return problemOf(patches, "pulsed", draws, layout);
}
