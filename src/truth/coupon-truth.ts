import { beamState } from "#beam";
import type { LaserSetup, MetalConditionGrade, Setting } from "#terms";

/**
 * A synthetic coupon whose laws are empirical thresholds, not heat conduction: it answers as a plate might, in another
 * form than the product's model, so that the model cannot be right by construction. Every number is invented.
 */
export interface CouponTruth {
  /** J/m² peak fluence (pulsed, at 100 ns) or at the centre of a line (continuous, at 1 ms): half of the layer comes off */
  readonly removalPulsed: number;
  readonly removalContinuous: number;
  /** the same where the metal begins to change */
  readonly damagePulsed: number;
  readonly damageContinuous: number;
  /** exponents of time in both thresholds */
  readonly removalTimeExponent: number;
  readonly damageTimeExponent: number;
  /** exponent of the number of events in the effective fluence */
  readonly removalCountExponent: number;
  readonly damageCountExponent: number;
  /** steepness of the fall of residue with ln effective fluence */
  readonly steepness: number;
  /** ln spread of the removal threshold from plate to plate, and of layer thickness from place to place */
  readonly plateSpread: number;
  readonly placeSpread: number;
  /** share of grades that are simply wrong */
  readonly misgraded: number;
  /** CIELAB L* of the bare and of the coated face */
  readonly lightnessBare: number;
  readonly lightnessCoated: number;
}

export interface TrueOutcome {
  readonly residueFraction: number;
  readonly metalCondition: MetalConditionGrade;
  readonly lightness: number;
}

/** Draws of one patch: all standard normal but `lapse`, uniform. */
export interface PatchNoise {
  readonly plate: number;
  readonly place: number;
  readonly damage: number;
  readonly reading: number;
  readonly lapse: number;
}

/** What one patch shows after one setting on a synthetic coupon. */
export function trueOutcome(truth: CouponTruth, setup: LaserSetup, setting: Setting, noise: PatchNoise): TrueOutcome {
  const beam = beamState(setup, setting);
  const pulsed = beam.onTime !== null && beam.pulseEnergy !== null;
  const time = pulsed ? (beam.onTime as number) / 100e-9 : (beam.dwell as number) / 1e-3;
  const fluence = pulsed ? (beam.fluencePeak as number) : 1.27 * (beam.meanPower / (setting.speed * beam.spotDiameter));
  // Events that reach a point within half of the spot's area, all passes.
  const events = Math.max(0.2, 0.5 * beam.eventsPerPoint);
  const effective = fluence * events ** truth.removalCountExponent;
  const threshold =
    (pulsed ? truth.removalPulsed : truth.removalContinuous) *
    time ** truth.removalTimeExponent *
    Math.exp(truth.plateSpread * noise.plate + truth.placeSpread * noise.place);
  const gaps = Math.max(0, 1 - events) * 0.6;
  const residue = Math.min(1, gaps + 1 / (1 + (effective / threshold) ** truth.steepness));
  const harmful = fluence * events ** truth.damageCountExponent * (1 + beam.arealDose / 4e6);
  const ratio =
    harmful /
    ((pulsed ? truth.damagePulsed : truth.damageContinuous) *
      time ** truth.damageTimeExponent *
      Math.exp(0.05 * noise.damage));
  let grade: MetalConditionGrade = ratio < 0.8 ? 0 : ratio < 1 ? 1 : ratio < 1.25 ? 2 : 3;
  if (noise.lapse < truth.misgraded) grade = grade >= 2 ? 1 : 3;
  const seen = Math.min(1, Math.max(0, residue * Math.exp(0.15 * noise.reading)));
  const lightness =
    truth.lightnessBare +
    (truth.lightnessCoated - truth.lightnessBare) * seen -
    4 * Math.max(0, ratio - 0.8) +
    0.6 * noise.reading;
  return {
    residueFraction: Math.round(seen * 1000) / 1000,
    metalCondition: grade,
    lightness: Math.round(lightness * 10) / 10,
  };
}
