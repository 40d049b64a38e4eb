import type { RandomStream } from "#numerics";
import { type Layout, logLikelihood, type Problem } from "./likelihood.ts";
import { damageShapes, removalShapes } from "./shapes.ts";

/** Versions of the truth: each a version of the physics with its shifts, scatters and effects. */
export interface Island {
  readonly count: number;
  /** which version of the physics */
  readonly draw: Int32Array;
  /** rows of standard normal coordinates, see `Layout` */
  readonly phi: Float64Array;
}

/** Prior of the shifts where an earlier job taught something: standard normal coordinates by place. */
export interface ShiftPrior {
  readonly mean: Float64Array;
  readonly spread: Float64Array;
}

export function noLessons(size: number): ShiftPrior {
  return { mean: new Float64Array(size), spread: new Float64Array(size).fill(1) };
}

/** Particles from the prior: versions of the physics in turn, everything else drawn. */
export function priorIsland(count: number, draws: number, prior: ShiftPrior, random: RandomStream): Island {
  const size = prior.mean.length;
  const order = random.shuffle(Array.from({ length: draws }, (_, j) => j));
  const phi = Float64Array.from({ length: count * size }, (_, k) => {
    const i = k % size;
    return prior.mean[i]! + prior.spread[i]! * random.normal();
  });
  return { count, draw: Int32Array.from({ length: count }, (_, m) => order[m % draws]!), phi };
}

/** The same particles with room for more plates and graders, whose effects are drawn from the prior. */
export function widened(island: Island, from: Layout, to: Layout, random: RandomStream): Island {
  if (from.size === to.size) return island;
  const phi = new Float64Array(island.count * to.size);
  for (let m = 0; m < island.count; m++) {
    const a = m * from.size;
    const b = m * to.size;
    for (let k = 0; k < to.size; k++) phi[b + k] = random.normal();
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

export interface TemperOptions {
  /** patches that the particles know already; the rest is new */
  readonly known: number;
  readonly moves: number;
}

/**
 * Brings the new patches of a problem in by tempering: weights L^(Δβ), Δβ such that the effective number stays at half,
 * systematic resampling, then moves that leave the tempered posterior as it is.
 *
 * Units: 1. Range: any problem. Errors: none. Source: Del Moral, Doucet and Jasra, J. Royal Stat. Soc. B 68 (2006);
 * differential-evolution moves after ter Braak, Statistics and Computing 16 (2006).
 */
export function temper(
  start: Island,
  problem: Problem,
  prior: ShiftPrior,
  options: TemperOptions,
  random: RandomStream,
): { readonly island: Island; readonly stages: number; readonly acceptance: number } {
  const { count } = start;
  const size = problem.layout.size;
  const n = problem.patches.length;
  let draw = Int32Array.from(start.draw);
  let phi = Float64Array.from(start.phi);
  const old = new Float64Array(count);
  const fresh = new Float64Array(count);
  for (let m = 0; m < count; m++) {
    old[m] = logLikelihood(problem, draw[m]!, phi, m * size, 0, options.known);
    fresh[m] = logLikelihood(problem, draw[m]!, phi, m * size, options.known, n);
  }
  let beta = 0;
  let stages = 0;
  let accepted = 0;
  let proposed = 0;
  while (beta < 1 && stages < STAGES_MAX) {
    const next = stages === STAGES_MAX - 1 ? 1 : nextBeta(fresh, beta);
    const parents = resample(fresh, next - beta, random);
    draw = draw.map((_, m) => draw[parents[m]!]!);
    const before = phi;
    phi = new Float64Array(before.length);
    for (let m = 0; m < count; m++) phi.set(before.subarray(parents[m]! * size, (parents[m]! + 1) * size), m * size);
    const oldBefore = Float64Array.from(old);
    const freshBefore = Float64Array.from(fresh);
    for (let m = 0; m < count; m++) {
      old[m] = oldBefore[parents[m]!]!;
      fresh[m] = freshBefore[parents[m]!]!;
    }
    beta = next;
    stages++;
    const moved = moveAll({ count, draw, phi }, problem, prior, options, beta, old, fresh, random);
    accepted += moved.accepted;
    proposed += moved.proposed;
  }
  return { island: { count, draw, phi }, stages, acceptance: proposed === 0 ? 1 : accepted / proposed };
}

/** Largest step of the tempering that leaves half of the particles effective. */
function nextBeta(fresh: Float64Array, beta: number): number {
  const goal = ESS_SHARE * fresh.length;
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

/** Systematic resampling by weights exp(step·ℓ): the parent of each particle. */
function resample(log: Float64Array, step: number, random: RandomStream): Int32Array {
  const count = log.length;
  let most = Number.NEGATIVE_INFINITY;
  for (const l of log) if (l > most) most = l;
  const weights = log.map((l) => Math.exp(step * (l - most)));
  const total = weights.reduce((a, b) => a + b, 0);
  const parents = new Int32Array(count);
  let place = (random.next() * total) / count;
  let at = 0;
  let upTo = weights[0]!;
  for (let m = 0; m < count; m++) {
    while (upTo < place && at < count - 1) upTo += weights[++at]!;
    parents[m] = at;
    place += total / count;
  }
  return parents;
}

interface Moved {
  readonly accepted: number;
  readonly proposed: number;
}

function moveAll(
  island: Island,
  problem: Problem,
  prior: ShiftPrior,
  options: TemperOptions,
  beta: number,
  old: Float64Array,
  fresh: Float64Array,
  random: RandomStream,
): Moved {
  const { count, draw, phi } = island;
  const size = problem.layout.size;
  const n = problem.patches.length;
  const proposal = new Float64Array(size);
  let accepted = 0;
  let proposed = 0;
  const consider = (m: number, toDraw: number) => {
    proposed++;
    const oldNew = logLikelihood(problem, toDraw, proposal, 0, 0, options.known);
    const freshNew = logLikelihood(problem, toDraw, proposal, 0, options.known, n);
    let ratio = oldNew - old[m]! + beta * (freshNew - fresh[m]!);
    for (let k = 0; k < size; k++) {
      const s = prior.spread[k]!;
      const a = (proposal[k]! - prior.mean[k]!) / s;
      const b = (phi[m * size + k]! - prior.mean[k]!) / s;
      ratio += 0.5 * (b * b - a * a);
    }
    if (Math.log(random.open()) >= ratio) return;
    accepted++;
    draw[m] = toDraw;
    phi.set(proposal, m * size);
    old[m] = oldNew;
    fresh[m] = freshNew;
  };
  for (let round = 0; round < options.moves; round++) {
    for (let m = 0; m < count; m++) {
      differenceMove(island, m, size, proposal, random);
      consider(m, draw[m]!);
      const other = random.integer(problem.draws);
      swapMove(island, problem, m, other, proposal);
      consider(m, other);
    }
  }
  return { accepted, proposed };
}

/** φ' = φ + γ(φ_a − φ_b) + noise, on a random part of the coordinates; a, b other particles. Symmetric. */
function differenceMove(island: Island, m: number, size: number, proposal: Float64Array, random: RandomStream): void {
  const { count, phi } = island;
  // Were a or b the particle itself, the way back would not be as likely as the way there.
  const another = () => {
    const k = random.integer(count - 1);
    return k < m ? k : k + 1;
  };
  const a = another();
  const b = another();
  const whole = random.next() < 0.3;
  let moved = 0;
  const pick = new Uint8Array(size);
  for (let k = 0; k < size; k++) {
    pick[k] = whole || random.next() < 0.3 ? 1 : 0;
    moved += pick[k]!;
  }
  const gamma = random.next() < 0.1 ? 1 : (2.38 / Math.sqrt(2 * Math.max(1, moved))) * (0.5 + random.next());
  for (let k = 0; k < size; k++) {
    const at = phi[m * size + k]!;
    proposal[k] = pick[k] === 1 ? at + gamma * (phi[a * size + k]! - phi[b * size + k]!) + 0.05 * random.normal() : at;
  }
}

/**
 * Another version of the physics, with both threshold shifts moved so that the edges over the burned patches stay where
 * they were on the mean: φ' = φ − (mean edge of the other − mean edge)/spread. Symmetric, and of unit volume.
 */
function swapMove(island: Island, problem: Problem, m: number, other: number, proposal: Float64Array): void {
  const { draw, phi } = island;
  const { layout, meanClean, meanDamage } = problem;
  const size = layout.size;
  proposal.set(phi.subarray(m * size, (m + 1) * size));
  const from = draw[m]!;
  proposal[layout.removal] =
    proposal[layout.removal]! - (meanClean[other]! - meanClean[from]!) / removalShapes[0]!.spread;
  proposal[layout.damage] =
    proposal[layout.damage]! + (meanDamage[from]! - meanDamage[other]!) / damageShapes[0]!.spread;
}
