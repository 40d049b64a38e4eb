import { createRandom, type RandomStream } from "#numerics";
import type { SourceKind } from "#terms";

/**
 * Laws of one invented world. None of them is conduction: thresholds are powers of time, count, spot and thickness, with
 * exponents of the world's own. Every number is invented.
 */
export interface WorldLaws {
  /** exponents of event time in the thresholds of fluence (pulsed) or of line dose (continuous) */
  readonly removalTime: number;
  readonly damageTime: number;
  /** S − 1: exponents of the number of events at a point */
  readonly removalCount: number;
  readonly damageCount: number;
  /** exponents of ln(spot): edges of small spots cool faster */
  readonly removalSpot: number;
  readonly damageSpot: number;
  /** exponent of the coat's thickness in the removal threshold */
  readonly thickness: number;
  /** share of removal that goes by summed dose instead of by the strongest event: eaten against thrown off */
  readonly eaten: number;
  /** order of the super-Gaussian spot, and the share of light in a ring on its wings */
  readonly spotOrder: number;
  readonly ring: number;
  /** J/m² peak fluence from which the plume shades, as a multiple of the reference's, and the exponent beyond it */
  readonly plumeFrom: number;
  readonly plumePower: number;
  /** how far warming by the mean power lowers both thresholds, per ln of power per area and time over the reference's */
  readonly warming: number;
  /** worth of every pass after the first */
  readonly passWorth: number;
  /** a lower layer: its thickness exponent, and its threshold over that of the upper one */
  readonly lowerRatio: number;
  readonly lowerTime: number;
  /** ln spreads: of removal and damage from plate to plate, of a patch's own, of the residue step */
  readonly plateRemoval: number;
  readonly plateDamage: number;
  readonly ownScatter: number;
  readonly step: number;
  /** ln spread of thickness from patch to patch on coupons */
  readonly couponThickness: number;
  /** ln bias of the grader's residue */
  readonly graderBias: number;
  /** share of grades that are simply wrong */
  readonly misgraded: number;
  /** place of the second line's pulses against the first, share of the pitch */
  readonly stagger: number;
}

/** Draws the laws of a world. Spreads are what published thresholds differ by, as far as memory goes; invented. */
export function drawLaws(seed: number, kind: SourceKind, layers: 1 | 2): WorldLaws {
  const random = createRandom(seed).substream(11);
  const normal = (mean: number, spread: number) => mean + spread * random.normal();
  const uniform = (low: number, high: number) => low + (high - low) * random.next();
  const pulsed = kind === "pulsed";
  return {
    removalTime: pulsed ? normal(0.35, 0.15) : normal(0.45, 0.12),
    damageTime: normal(0.5, 0.08),
    removalCount: normal(-0.06, 0.04),
    damageCount: normal(-0.03, 0.02),
    removalSpot: normal(0, 0.12),
    damageSpot: normal(0, 0.1),
    thickness: random.next() < 0.5 ? uniform(0, 0.25) : uniform(0.4, 0.9),
    eaten: random.next() < 0.5 ? uniform(0, 0.15) : uniform(0.2, 0.5),
    spotOrder: uniform(2, 6),
    ring: uniform(0, 0.15),
    plumeFrom: uniform(0.8, 3),
    plumePower: uniform(0.4, 0.8),
    warming: Math.abs(normal(0.05, 0.04)),
    passWorth: uniform(0.6, 1),
    lowerRatio: layers === 2 ? Math.exp(normal(0, 0.3)) : 0,
    lowerTime: normal(0, 0.1),
    plateRemoval: 0.06,
    plateDamage: 0.03,
    ownScatter: 0.04,
    step: uniform(0.03, 0.12),
    couponThickness: 0.15,
    graderBias: normal(0, 0.1),
    misgraded: 0.02,
    stagger: random.next(),
  };
}

/** A stream for one plate of a world: the same plate always gives the same effects. */
export function plateStream(seed: number, coupon: number): RandomStream {
  return createRandom(seed).substream(100 + coupon);
}
