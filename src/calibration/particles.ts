import type { RandomStream } from "#numerics";
import { fastNormals } from "./fast-normals.ts";
import type { Layout, Problem } from "./likelihood.ts";
import { Weigher } from "./weigher.ts";

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

export interface TemperOptions {
  /** patches that the particles know already; the rest is new */
  readonly known: number;
  readonly moves: number;
  /** particles to end with; the start may have more, so that a narrow posterior finds its first ones */
  readonly count: number;
}

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
    weigher.shifts(phi, m * size, first, 0);
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

interface Moved {
  readonly accepted: number;
  readonly proposed: number;
}

function moveAll(
  island: Island,
  weigher: Weigher,
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
  const normal = fastNormals(random);
  const proposal = new Float64Array(size);
  const direction = new Float64Array(size);
  /** shifts of the patches: of the particle, of the proposal, of a direction, of the mean of the prior */
  const here = new Float64Array(2 * n);
  const there = new Float64Array(2 * n);
  const along = new Float64Array(2 * n);
  const middle = new Float64Array(2 * n);
  weigher.shifts(prior.mean, 0, middle, 0);
  let accepted = 0;
  let proposed = 0;
  let oldNew = 0;
  let freshNew = 0;
  /** ln of the tempered likelihood at the shifts of the proposal; its two parts are kept for `take` */
  const weigh = (version: number): number => {
    oldNew = weigher.weigh(version, there, 0, 0, options.known);
    freshNew = weigher.weigh(version, there, 0, options.known, n);
    return oldNew + beta * freshNew;
  };
  const take = (m: number, version: number) => {
    draw[m] = version;
    phi.set(proposal, m * size);
    here.set(there);
    old[m] = oldNew;
    fresh[m] = freshNew;
  };
  /** ln prior of a row, but for a constant */
  const lnPrior = (row: Float64Array, at: number): number => {
    let sum = 0;
    for (let k = 0; k < size; k++) {
      const z = (row[at + k]! - prior.mean[k]!) / prior.spread[k]!;
      sum -= 0.5 * z * z;
    }
    return sum;
  };
  const difference = (m: number) => {
    proposed++;
    differenceMove(island, m, size, proposal, random, normal);
    const before = old[m]! + beta * fresh[m]! + lnPrior(phi, m * size);
    weigher.shifts(proposal, 0, there, 0);
    weigher.noise(proposal, 0);
    if (Math.log(random.open()) >= weigh(draw[m]!) + lnPrior(proposal, 0) - before) return;
    accepted++;
    take(m, draw[m]!);
  };
  const sides = sidesOf(problem.layout);
  /**
   * Elliptical slice: one side at once along an ellipse through the prior; what the patches say nothing of is drawn anew.
   * Residue and metal each depend on their own side, so that one side alone turns farther than both would.
   */
  const slice = (m: number, side: Side) => {
    const bar = old[m]! + beta * fresh[m]! + Math.log(random.open());
    const { places, first } = side;
    for (const k of places) direction[k] = prior.spread[k]! * normal();
    weigher.sideShifts(direction, along, first);
    proposal.set(phi.subarray(m * size, (m + 1) * size));
    there.set(here);
    let angle = 2 * Math.PI * random.next();
    let low = angle - 2 * Math.PI;
    let high = angle;
    for (let tries = 0; tries < SLICE_TRIES; tries++) {
      const c = Math.cos(angle);
      const d = Math.sin(angle);
      for (const k of places)
        proposal[k] = prior.mean[k]! + c * (phi[m * size + k]! - prior.mean[k]!) + d * direction[k]!;
      // The shifts of a side are linear in its part of the row, so they turn along with it; the other side stays.
      for (let i = first; i < 2 * n; i += 2) there[i] = middle[i]! + c * (here[i]! - middle[i]!) + d * along[i]!;
      weigher.noise(proposal, 0);
      if (weigh(draw[m]!) > bar) return take(m, draw[m]!);
      if (angle < 0) low = angle;
      else high = angle;
      angle = low + random.next() * (high - low);
    }
  };
  /** One of a few versions of the physics, by their chances at shifts that keep the edges where they are. */
  const swap = (m: number) => {
    const others = Math.min(SWAPS, problem.draws - 1);
    let total = 1;
    const before = old[m]! + beta * fresh[m]! + lnPrior(phi, m * size);
    let pick = -1;
    weigher.noise(phi, m * size);
    const own = weigher.likeness(draw[m]!);
    const place = (other: number) => {
      swapMove(island, problem, m, other, proposal);
      const like = weigher.likeness(other);
      for (let i = 0; i < 2 * n; i++) there[i] = here[i]! - (like[i]! - own[i]!);
    };
    // Gibbs over a random handful that holds the present one: a running draw needs no list of weights.
    for (let i = 0; i < others; i++) {
      const other = random.integer(problem.draws);
      place(other);
      const weight = Math.exp(Math.min(500, weigh(other) + lnPrior(proposal, 0) - before));
      total += weight;
      if (random.next() * total < weight) pick = other;
    }
    if (pick < 0 || pick === draw[m]) return;
    place(pick);
    weigh(pick);
    take(m, pick);
  };
  for (let round = 0; round < options.moves; round++) {
    for (let m = 0; m < count; m++) {
      weigher.shifts(phi, m * size, here, 0);
      difference(m);
      slice(m, sides.removal);
      slice(m, sides.damage);
      swap(m);
    }
  }
  return { accepted, proposed };
}

/** One side of the patches: what residue shows, or what the metal shows. */
interface Side {
  /** coordinates of a row that move it; wrong grades go with both sides */
  readonly places: Int32Array;
  /** where it stands in the shifts of a patch: 0 removal, 1 damage */
  readonly first: 0 | 1;
}

function sidesOf(layout: Layout): { readonly removal: Side; readonly damage: Side } {
  const range = (from: number, to: number) => Array.from({ length: to - from }, (_, k) => from + k);
  const { removal, damage, scatter, lapse, couponRemoval, couponDamage, graderRemoval, graderDamage, size } = layout;
  return {
    removal: {
      places: Int32Array.from([
        ...range(removal, damage),
        scatter,
        lapse,
        ...range(couponRemoval, couponDamage),
        ...range(graderRemoval, graderDamage),
      ]),
      first: 0,
    },
    damage: {
      places: Int32Array.from([
        ...range(damage, scatter),
        scatter + 1,
        lapse,
        ...range(couponDamage, graderRemoval),
        ...range(graderDamage, size),
      ]),
      first: 1,
    },
  };
}

/** Versions of the physics that a swap chooses among beside the present one, and points that a slice tries at most. */
const SWAPS = 6;
const SLICE_TRIES = 30;

/** φ' = φ + γ(φ_a − φ_b) + noise, on a random part of the coordinates; a, b other particles. Symmetric. */
function differenceMove(
  island: Island,
  m: number,
  size: number,
  proposal: Float64Array,
  random: RandomStream,
  normal: () => number,
): void {
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
    proposal[k] = pick[k] === 1 ? at + gamma * (phi[a * size + k]! - phi[b * size + k]!) + 0.05 * normal() : at;
  }
}

/**
 * Another version of the physics, with the shifts moved so that the edges over the burned patches stay where they were as
 * far as shifts can do that: φ' = φ − (likeness of the other − likeness). Symmetric, and of unit volume.
 */
function swapMove(island: Island, problem: Problem, m: number, other: number, proposal: Float64Array): void {
  const { draw, phi } = island;
  const { layout, removalLikeness, damageLikeness } = problem;
  const { size } = layout;
  proposal.set(phi.subarray(m * size, (m + 1) * size));
  const from = draw[m]!;
  const removal = [removalLikeness[from]!, removalLikeness[other]!] as const;
  const damage = [damageLikeness[from]!, damageLikeness[other]!] as const;
  for (let k = 0; k < removal[0].length; k++) proposal[layout.removal + k]! -= removal[1][k]! - removal[0][k]!;
  for (let k = 0; k < damage[0].length; k++) proposal[layout.damage + k]! -= damage[1][k]! - damage[0][k]!;
}
