import { allParticles, calibrate, type PatchEvidence, removalShapes } from "#calibration";
import { createRandom } from "#numerics";
import { burnt, inventedRays, patch, problemFor } from "./synthetic.ts";

/** Numbers whose ranks are counted. */
export const quantities = ["removal threshold", "damage threshold", "clean edge elsewhere", "ln scatter"] as const;
const BINS = 10;
const DRAWS = 24;

/** How the truths differ from the prior that the update believes in: all 0 in the honest check. */
export interface Flaw {
  /** the removal threshold of the truth is this many times as far out */
  readonly removal?: number;
  /** share of verdicts turned into the opposite, beyond the lapse */
  readonly turned?: number;
}

/** How far ranks are from uniform. */
export interface RankTest {
  readonly name: string;
  /** χ² over 10 bins, 9 degrees of freedom: 99.9 % point 27.9 */
  readonly bins: number;
  /** squared standard deviations of mean and of spread of the ranks, χ² of 2 degrees of freedom: 99.9 % point 13.8 */
  readonly shape: number;
}

/**
 * Simulation-based calibration: truths from the prior, 12 patches each, ranks of the truth among 200 particles; uniform when
 * the sampler gives the posterior. Bins find any form; mean (½ ± 1/√12n) and spread (1/12 ± 1/√180n) find sooner what a
 * wrong posterior usually is: off to one side, too narrow or too wide.
 * Source: Talts, Betancourt, Simpson, Vehtari and Gelman, arXiv 1804.06788 (2018).
 */
export function rankTests(replicates: number, seed: number, flaw: Flaw = {}): RankTest[] {
  const random = createRandom(seed);
  const ranks = quantities.map((): number[] => []);
  const counts = quantities.map(() => new Array<number>(BINS).fill(0));
  for (let r = 0; r < replicates; r++) {
    const rays = inventedRays(6, DRAWS, seed + 1000 + r);
    const elsewhere = rays[5]!;
    const plan: PatchEvidence[] = Array.from({ length: 12 }, (_, i) =>
      patch(i + 1, rays[i % 5]!, -1.4 * random.next(), { coupon: i % 2 }),
    );
    const { layout } = problemFor(plan, DRAWS);
    const draw = random.integer(DRAWS);
    const phi = Float64Array.from({ length: layout.size }, () => random.normal());
    phi[layout.removal] = phi[layout.removal]! * (flaw.removal ?? 1);
    const patches = burnt(plan, draw, phi, random).map((p) =>
      random.next() < (flaw.turned ?? 0)
        ? { ...p, residue: [p.residue![2], p.residue![1], p.residue![0]] as const }
        : p,
    );
    const posterior = calibrate({ kind: "pulsed", draws: DRAWS, patches, seed: seed + r, particles: 200, islands: 1 });
    const all = allParticles(posterior);
    // The whole row of the removal shapes on the ray elsewhere, at full power.
    const row = problemFor([patch(99, elsewhere, 0)], DRAWS).removalRows[0]!;
    const read = (j: number, of: Float64Array, at: number): number[] => {
      let edge = elsewhere.clean[j]!;
      for (let k = 0; k < removalShapes.length; k++) edge += row[k]! * of[at + k]!;
      return [of[at + layout.removal]!, of[at + layout.damage]!, edge, of[at + layout.scatter]!];
    };
    const truth = read(draw, phi, 0);
    const below = [0, 0, 0, 0];
    for (let m = 0; m < all.count; m++) {
      read(all.draw[m]!, all.phi, m * layout.size).forEach((value, q) => {
        if (value < truth[q]!) below[q]!++;
      });
    }
    below.forEach((rank, q) => {
      ranks[q]!.push((rank + 0.5) / (all.count + 1));
      counts[q]![Math.floor((rank * BINS) / (all.count + 1))]!++;
    });
  }
  const expected = replicates / BINS;
  return quantities.map((name, q) => {
    const centre = ranks[q]!.reduce((sum, u) => sum + u - 0.5, 0) / replicates;
    const spread = ranks[q]!.reduce((sum, u) => sum + (u - 0.5) ** 2, 0) / replicates;
    return {
      name,
      bins: counts[q]!.reduce((sum, c) => sum + (c - expected) ** 2 / expected, 0),
      shape: centre ** 2 * 12 * replicates + (spread - 1 / 12) ** 2 * 180 * replicates,
    };
  });
}
