import { GAS_CONSTANT } from "./gas-constant.ts";

/** Converted share of a layer cell at which it counts as eaten. A convention of ours, stated with every answer. */
export const EATEN_CONVERSION = 0.5;

/**
 * Temperature at which a first-order Arrhenius reaction reaches a given conversion in a given time.
 *
 * Equation: A·t·exp(−E/(R·T)) = −ln(1 − X), so T = E / (R·ln(A·t/(−ln(1 − X)))).
 * Units: preExponential 1/s, activationEnergy J/mol, time s, conversion 1; result K.
 * Range: A·t > −ln(1 − X); for shorter times no temperature is high enough and Infinity is returned.
 * Errors: none.
 * Source: own derivation from dX/dt = A·exp(−E/(R·T))·(1 − X).
 */
export function conversionTemperature(
  preExponential: number,
  activationEnergy: number,
  time: number,
  conversion = EATEN_CONVERSION,
): number {
  const ratio = (preExponential * time) / -Math.log1p(-conversion);
  return ratio > 1 ? activationEnergy / (GAS_CONSTANT * Math.log(ratio)) : Number.POSITIVE_INFINITY;
}
