import type { RandomStream } from "#numerics";
import { fastNormals } from "./fast-normals.ts";
import type { Layout, Problem } from "./likelihood.ts";
import type { Island, ShiftPrior, TemperOptions } from "./island.ts";
import type { Weigher } from "./weigher.ts";

interface Moved {
  readonly accepted: number;
  readonly proposed: number;
}

/**
 * Moves every particle so that the tempered posterior stays as it is: differences of others, a slice of each side, a swap of
 * the version. `old` and `fresh` hold ln likelihoods of known and new patches and are kept up to date.
 * Units: 1. Range: any island. Errors: none. Source: as `temper`.
 */
export function moveAll(
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
  weigher.shifts(prior.mean, 0, middle);
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
    weigher.shifts(proposal, 0, there);
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
    weigher.sideShifts(direction, 0, along, first);
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
      weigher.shifts(phi, m * size, here);
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
