import {
  allParticles,
  damageShapes,
  type Posterior,
  quickNormal,
  referenceOf,
  removalShapes,
  shapeRow,
} from "#calibration";
import type { Ray } from "#edges";
import { mean, quantiles } from "#numerics";
import type { DriftSpread } from "#terms";

/** ln power: what is left of scatter from place to place on a production part, beside the drift that is stated. */
const PLACE_SCATTER = 0.02;
/** Versions of the truth that chances are worked out in. */
export const CHANCE_DRAWS = 240;

/** A posterior ready to be asked about settings: some versions of the truth, evenly taken from all islands. */
export interface TruthDraws {
  readonly kind: Posterior["kind"];
  readonly count: number;
  readonly draw: Int32Array;
  readonly phi: Float64Array;
  /** coordinates per row of `phi` */
  readonly size: number;
  /** where the shifts of the damage edge begin in a row */
  readonly damageAt: number;
}

/** Takes `count` versions of the truth out of a posterior, evenly. */
export function truthDraws(posterior: Posterior, count = CHANCE_DRAWS): TruthDraws {
  const all = allParticles(posterior);
  const { size } = posterior.layout;
  const wanted = Math.min(count, all.count);
  const draw = new Int32Array(wanted);
  const phi = new Float64Array(wanted * size);
  for (let s = 0; s < wanted; s++) {
    const m = Math.floor(((s + 0.5) * all.count) / wanted);
    draw[s] = all.draw[m]!;
    phi.set(all.phi.subarray(m * size, (m + 1) * size), s * size);
  }
  return { kind: posterior.kind, count: wanted, draw, phi, size, damageAt: posterior.layout.damage };
}

/** Both edges of one ray in each version of the truth, ln power: edge + slope·x at a power of exp(x). */
export interface RayTruth {
  readonly ray: Ray;
  readonly clean: Float64Array;
  readonly cleanSlope: Float64Array;
  readonly damage: Float64Array;
  readonly damageSlope: Float64Array;
  /** ln power: how far both edges wander in production */
  readonly cleanDrift: number;
  readonly damageDrift: number;
}

/**
 * Edges of a ray in every version of the truth, without plate and grader: those belong to coupons, not to production.
 *
 * Equation: edge = edge of the version of the physics + Σ spread·shape·shift; drift s² = s_power² + (∂edge/∂ln v·s_v)² +
 * (∂edge/∂ln d·s_d)² + (∂edge/∂ln h·s_h)² + s_place².
 * Units: ln power; drift spreads ln. Range: any. Errors: none. Source: `solveRay`, `shiftShapes`.
 */
export function rayTruth(truths: TruthDraws, ray: Ray, drift: DriftSpread): RayTruth {
  const from = referenceOf(truths.kind);
  const removalFull = shapeRow(removalShapes, ray, 0, 0, from);
  const removalLess = shapeRow(removalShapes, ray, -1, 0, from);
  const damageFull = shapeRow(damageShapes, ray, 0, 0, from);
  const damageLess = shapeRow(damageShapes, ray, -1, 0, from);
  const { count, draw, phi, size, damageAt } = truths;
  const clean = new Float64Array(count);
  const cleanSlope = new Float64Array(count);
  const damage = new Float64Array(count);
  const damageSlope = new Float64Array(count);
  for (let s = 0; s < count; s++) {
    let c = ray.clean[draw[s]!]!;
    let cs = 0;
    for (let k = 0; k < removalFull.length; k++) {
      const z = phi[s * size + k]!;
      c += removalFull[k]! * z;
      cs += (removalFull[k]! - removalLess[k]!) * z;
    }
    let d = ray.damage[draw[s]!]!;
    let ds = 0;
    for (let k = 0; k < damageFull.length; k++) {
      const z = phi[s * size + damageAt + k]!;
      d += damageFull[k]! * z;
      ds += (damageFull[k]! - damageLess[k]!) * z;
    }
    clean[s] = c;
    cleanSlope[s] = cs;
    damage[s] = d;
    damageSlope[s] = ds;
  }
  const wander = (slopes: Ray["slopes"]["clean"]) =>
    Math.hypot(
      drift.power,
      slopes.speed * drift.speed,
      slopes.spot * drift.spot,
      slopes.thickness * drift.thickness,
      PLACE_SCATTER,
    );
  return {
    ray,
    clean,
    cleanSlope,
    damage,
    damageSlope,
    cleanDrift: wander(ray.slopes.clean),
    damageDrift: wander(ray.slopes.damage),
  };
}

/** Chances of one setting in one version of the truth under drift. */
export interface Chance {
  clean: number;
  undamaged: number;
  both: number;
}

/** How far a power of exp(x) of the ray's lies above the edge of cleaning in version `s`, in deviations of its drift. */
export const aboveClean = (truth: RayTruth, x: number, s: number): number =>
  (x - truth.clean[s]! - truth.cleanSlope[s]! * x) / truth.cleanDrift;

/** How far it lies below the edge of harm, likewise. */
export const belowDamage = (truth: RayTruth, x: number, s: number): number =>
  (truth.damage[s]! + truth.damageSlope[s]! * x - x) / truth.damageDrift;

/**
 * Chance that a production patch is clean, undamaged, and both, in version `s`, its power at exp(x) of the ray's.
 *
 * Equation: Φ((x − clean)/s_c), Φ((damage − x)/s_d), and max(0, their sum − 1): the least that two such chances leave for
 * both, which drift of power comes near, since it drives a setting to one edge as it leaves the other.
 * Units: 1. Range: any x. Errors: none. Source: Fréchet's bound.
 */
export function chanceAt(truth: RayTruth, x: number, s: number, out: Chance): void {
  const clean = quickNormal(aboveClean(truth, x, s));
  const undamaged = quickNormal(belowDamage(truth, x, s));
  out.clean = clean;
  out.undamaged = undamaged;
  out.both = Math.max(0, clean + undamaged - 1);
}

/** Mean over the versions of the truth of the chance that a patch is clean and undamaged, with its 5 and 95 % points. */
export function spreadOver(
  truth: RayTruth,
  x: number,
): { readonly mean: number; readonly low: number; readonly high: number } {
  const one: Chance = { clean: 0, undamaged: 0, both: 0 };
  const all = Float64Array.from(truth.clean, (_, s) => {
    chanceAt(truth, x, s, one);
    return one.both;
  });
  const [low, high] = quantiles(all, [0.05, 0.95]);
  return { mean: mean(all), low: low!, high: high! };
}
