import { effectPriors, lapseOf, type Problem, scatterOf } from "./likelihood.ts";
import { quickNormal } from "./quick-normal.ts";

/** How a reading enters: not at all, surely the first class, surely the last, or by the chances of all three. */
const NONE = 0;
const FIRST = 1;
const LAST = 2;
const MIXED = 3;

function wayOf(reading: readonly [number, number, number] | null): number {
  if (reading === null) return NONE;
  const [first, middle, last] = reading;
  if (first === 1 && middle === 0 && last === 0) return FIRST;
  return first === 0 && middle === 0 && last === 1 ? LAST : MIXED;
}

/** Products of chances below this are taken into the logarithm, so that none of them leaves the doubles. */
const SMALL = 1e-200;

/**
 * The likelihood of `logLikelihood`, laid out for a sampler that asks a million times: edges version by version, shifts of
 * all patches worked out once per row and then combined, one logarithm for many patches. Same numbers to rounding.
 */
export class Weigher {
  readonly #problem: Problem;
  readonly #n: number;
  /** edges less the patch's power: half, clean, melt, damage of each patch, version by version */
  readonly #edges: Float64Array;
  /** chances of the three classes of both readings of each patch */
  readonly #weights: Float64Array;
  readonly #residueRead: Uint8Array;
  readonly #metalRead: Uint8Array;
  readonly #versions: (Float64Array | undefined)[];
  #inverseRemoval = 1;
  #inverseDamage = 1;
  #lapse = 0;

  constructor(problem: Problem) {
    const { patches, draws } = problem;
    const n = patches.length;
    this.#problem = problem;
    this.#n = n;
    this.#versions = new Array<Float64Array | undefined>(draws);
    this.#edges = new Float64Array(4 * n * draws);
    for (let j = 0; j < draws; j++) {
      for (let i = 0; i < n; i++) {
        const { ray, x } = patches[i]!;
        const at = 4 * (j * n + i);
        // Edges out of order leave the class between them without a chance, as in `classChances`.
        this.#edges[at] = Math.min(ray.half[j]!, ray.clean[j]!) - x;
        this.#edges[at + 1] = ray.clean[j]! - x;
        this.#edges[at + 2] = ray.melt[j]! - x;
        this.#edges[at + 3] = Math.max(ray.melt[j]!, ray.damage[j]!) - x;
      }
    }
    this.#weights = new Float64Array(6 * n);
    this.#residueRead = new Uint8Array(n);
    this.#metalRead = new Uint8Array(n);
    patches.forEach(({ residue, metal }, i) => {
      if (residue) this.#weights.set(residue, 6 * i);
      if (metal) this.#weights.set(metal, 6 * i + 3);
      this.#residueRead[i] = wayOf(residue);
      this.#metalRead[i] = wayOf(metal);
    });
  }

  /** Shifts of both edges of every patch by one row of coordinates, removal and damage in turn; linear in the row. */
  shifts(phi: Float64Array, at: number, out: Float64Array): void {
    this.sideShifts(phi, at, out, 0);
    this.sideShifts(phi, at, out, 1);
  }

  /** The same of one edge: removal where `side` is 0, damage where it is 1; the others are left as they are. */
  sideShifts(phi: Float64Array, at: number, out: Float64Array, side: 0 | 1): void {
    const { layout, removalRows, damageRows, patches } = this.#problem;
    const rows = side === 0 ? removalRows : damageRows;
    const first = at + (side === 0 ? layout.removal : layout.damage);
    const coupons = at + (side === 0 ? layout.couponRemoval : layout.couponDamage);
    const graders = at + (side === 0 ? layout.graderRemoval : layout.graderDamage);
    const ofCoupon = side === 0 ? effectPriors.couponRemoval : effectPriors.couponDamage;
    const ofGrader = side === 0 ? effectPriors.graderRemoval : effectPriors.graderDamage;
    for (let i = 0; i < this.#n; i++) {
      const row = rows[i]!;
      const { coupon, grader } = patches[i]!;
      let sum = ofCoupon * phi[coupons + coupon]! + ofGrader * phi[graders + grader]!;
      for (let k = 0; k < row.length; k++) sum += row[k]! * phi[first + k]!;
      out[2 * i + side] = sum;
    }
  }

  /** Shifts of the patches by what a version looks like as shifts, see `Problem.removalLikeness`. */
  likeness(version: number): Float64Array {
    const known = this.#versions[version];
    if (known) return known;
    const { removalRows, damageRows, removalLikeness, damageLikeness } = this.#problem;
    const removal = removalLikeness[version]!;
    const damage = damageLikeness[version]!;
    const made = new Float64Array(2 * this.#n);
    for (let i = 0; i < this.#n; i++) {
      let r = 0;
      let d = 0;
      for (let k = 0; k < removal.length; k++) r += removalRows[i]![k]! * removal[k]!;
      for (let k = 0; k < damage.length; k++) d += damageRows[i]![k]! * damage[k]!;
      made[2 * i] = r;
      made[2 * i + 1] = d;
    }
    this.#versions[version] = made;
    return made;
  }

  /** Takes scatter and mis-grading from a row: they hold for all that is weighed next. */
  noise(phi: Float64Array, at: number): void {
    const { layout, lapseMedian } = this.#problem;
    this.#inverseRemoval = 1 / scatterOf(effectPriors.scatterRemoval, phi[at + layout.scatter]!);
    this.#inverseDamage = 1 / scatterOf(effectPriors.scatterDamage, phi[at + layout.scatter + 1]!);
    this.#lapse = lapseOf(lapseMedian, phi[at + layout.lapse]!);
  }

  /** ln likelihood of patches `first` to `last` − 1 in a version, their edges moved by `shifts`; equation as `logLikelihood`. */
  weigh(version: number, shifts: Float64Array, at: number, first: number, last: number): number {
    const edges = this.#edges;
    const weights = this.#weights;
    const inverse = this.#inverseRemoval;
    const inverseHarm = this.#inverseDamage;
    const right = 1 - this.#lapse;
    const wrong = this.#lapse / 3;
    let product = 1;
    let sum = 0;
    const residueRead = this.#residueRead;
    const metalRead = this.#metalRead;
    let e = 4 * (version * this.#n + first);
    for (let i = first; i < last; i++, e += 4) {
      const w = 6 * i;
      const residue = residueRead[i]!;
      if (residue !== NONE) {
        const shift = shifts[at + 2 * i]!;
        let p: number;
        if (residue === FIRST) p = quickNormal(-(edges[e + 1]! + shift) * inverse);
        else if (residue === LAST) p = 1 - quickNormal(-(edges[e]! + shift) * inverse);
        else {
          const clean = quickNormal(-(edges[e + 1]! + shift) * inverse);
          const half = quickNormal(-(edges[e]! + shift) * inverse);
          p = weights[w]! * clean + weights[w + 1]! * (half - clean) + weights[w + 2]! * (1 - half);
        }
        product *= right * p + wrong;
      }
      const metal = metalRead[i]!;
      if (metal !== NONE) {
        const shift = shifts[at + 2 * i + 1]!;
        let p: number;
        if (metal === FIRST) p = quickNormal((edges[e + 2]! + shift) * inverseHarm);
        else if (metal === LAST) p = 1 - quickNormal((edges[e + 3]! + shift) * inverseHarm);
        else {
          const whole = quickNormal((edges[e + 2]! + shift) * inverseHarm);
          const accepted = quickNormal((edges[e + 3]! + shift) * inverseHarm);
          p = weights[w + 3]! * whole + weights[w + 4]! * (accepted - whole) + weights[w + 5]! * (1 - accepted);
        }
        product *= right * p + wrong;
      }
      if (product < SMALL) {
        sum += Math.log(product);
        product = 1;
      }
    }
    return sum + Math.log(product);
  }
}
