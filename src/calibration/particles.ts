import type { RandomStream } from "#numerics";
import { fastNormals } from "./fast-normals.ts";
import type { Layout, Problem } from "./likelihood.ts";
import type { Island, ShiftPrior, TemperOptions } from "./island.ts";
import { moveAll } from "./moves.ts";
import { Weigher } from "./weigher.ts";

export function noLessons(size: number): ShiftPrior {
  return { mean: new Float64Array(size), spread: new Float64Array(size).fill(1) };
}

/** Particles from the prior: versions of the physics in turn, everything else drawn. */
export function priorIsland(count: number, draws: number, prior: ShiftPrior, random: RandomStream): Island {
  const size = prior.mean.length;
  const order = random.shuffle(Array.from({ length: draws }, (_, j) => j));
  const normal = fastNormals(random);
  const phi = Float64Array.from({ length: count * size }, (_, k) => {
    const i = k % size;
    return prior.mean[i]! + prior.spread[i]! * normal();
  });
  return { count, draw: Int32Array.from({ length: count }, (_, m) => order[m % draws]!), phi };
}

/** The same particles with room for more plates and graders, whose effects are drawn from the prior. */
export function widened(island: Island, from: Layout, to: Layout, random: RandomStream): Island {
  if (from.size === to.size) return island;
  const phi = new Float64Array(island.count * to.size);
  const normal = fastNormals(random);
  for (let m = 0; m < island.count; m++) {
    const a = m * from.size;
    const b = m * to.size;
    for (let k = 0; k < to.size; k++) phi[b + k] = normal();
    for (let k = 0; k < from.couponRemoval; k++) phi[b + k] = island.phi[a + k]!;
    for (let c = 0; c < from.coupons; c++) {
      phi[b + to.couponRemoval + c] = island.phi[a + from.couponRemoval + c]!;
      phi[b + to.couponDamage + c] = island.phi[a + from.couponDamage + c]!;
    }
    for (let g = 0; g < from.graders; g++) {
      phi[b + to.graderRemoval + g] = island.phi[a + from.graderRemoval + g]!;
      phi[b + to.graderDamage + g] = island.phi[a + from.graderDamage + g]!;
    }
  }
  return { count: island.count, draw: island.draw, phi };
}

const ESS_SHARE = 0.5;
const STAGES_MAX = 60;

/**
 * Brings the new patches of a problem in by tempering: weights L^(Δβ), Δβ such that the effective number stays at half,
 * systematic resampling, then moves that leave the tempered posterior as it is.
 *
 * Units: 1. Range: any problem. Errors: none. Source: Del Moral, Doucet and Jasra, J. Royal Stat. Soc. B 68 (2006);
 * differential-evolution moves after ter Braak, Statistics and Computing 16 (2006); elliptical slices after Murray, Adams and
 * MacKay, J. Machine Learning Research W&CP 9 (2010).
 */
export function temper(
  start: Island,
  problem: Problem,
  prior: ShiftPrior,
  options: TemperOptions,
  random: RandomStream,
): { readonly island: Island; readonly stages: number; readonly acceptance: number } {
  const size = problem.layout.size;
  const n = problem.patches.length;
  let { count } = start;
  let draw = Int32Array.from(start.draw);
  let phi = Float64Array.from(start.phi);
  let old = new Float64Array(count);
  let fresh = new Float64Array(count);
  const weigher = new Weigher(problem);
  const first = new Float64Array(2 * n);
  for (let m = 0; m < count; m++) {
    weigher.shifts(phi, m * size, first);
    weigher.noise(phi, m * size);
    old[m] = weigher.weigh(draw[m]!, first, 0, 0, options.known);
    fresh[m] = weigher.weigh(draw[m]!, first, 0, options.known, n);
  }
  let beta = 0;
  let stages = 0;
  let accepted = 0;
  let proposed = 0;
  while (beta < 1 && stages < STAGES_MAX) {
    const next = stages === STAGES_MAX - 1 ? 1 : nextBeta(fresh, beta, ESS_SHARE * options.count);
    const parents = resample(fresh, next - beta, options.count, random);
    const before = phi;
    count = options.count;
    phi = new Float64Array(count * size);
    for (let m = 0; m < count; m++) phi.set(before.subarray(parents[m]! * size, (parents[m]! + 1) * size), m * size);
    const inherit = <T extends Float64Array | Int32Array>(values: T, made: T): T => {
      for (let m = 0; m < count; m++) made[m] = values[parents[m]!]!;
      return made;
    };
    draw = inherit(draw, new Int32Array(count));
    old = inherit(old, new Float64Array(count));
    fresh = inherit(fresh, new Float64Array(count));
    beta = next;
    stages++;
    const moved = moveAll({ count, draw, phi }, weigher, problem, prior, options, beta, old, fresh, random);
    accepted += moved.accepted;
    proposed += moved.proposed;
  }
  return { island: { count, draw, phi }, stages, acceptance: proposed === 0 ? 1 : accepted / proposed };
}

/** Largest step of the tempering that leaves so many particles effective. */
function nextBeta(fresh: Float64Array, beta: number, goal: number): number {
  if (effective(fresh, 1 - beta) >= goal) return 1;
  let low = 0;
  let high = 1 - beta;
  for (let i = 0; i < 30; i++) {
    const middle = (low + high) / 2;
    if (effective(fresh, middle) >= goal) low = middle;
    else high = middle;
  }
  return Math.min(1, beta + Math.max(low, 1e-4));
}

/** (Σw)²/Σw² of weights exp(step·ℓ). */
function effective(log: Float64Array, step: number): number {
  let most = Number.NEGATIVE_INFINITY;
  for (const l of log) if (l > most) most = l;
  let sum = 0;
  let square = 0;
  for (const l of log) {
    const w = Math.exp(step * (l - most));
    sum += w;
    square += w * w;
  }
  return (sum * sum) / square;
}

/** Systematic resampling to `count` by weights exp(step·ℓ): the parent of each particle. */
function resample(log: Float64Array, step: number, count: number, random: RandomStream): Int32Array {
  let most = Number.NEGATIVE_INFINITY;
  for (const l of log) if (l > most) most = l;
  const weights = log.map((l) => Math.exp(step * (l - most)));
  const total = weights.reduce((a, b) => a + b, 0);
  const parents = new Int32Array(count);
  let place = (random.next() * total) / count;
  let at = 0;
  let upTo = weights[0]!;
  for (let m = 0; m < count; m++) {
    while (upTo < place && at < log.length - 1) upTo += weights[++at]!;
    parents[m] = at;
    place += total / count;
  }
  return parents;
}
