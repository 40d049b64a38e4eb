import { CONVERSION_REFERENCE, conversionEnergy, conversionRate } from "#library";
import type { Ratio } from "#terms";
import { requirePositive } from "#units";
import { GAS_CONSTANT } from "./gas-constant.ts";
import { arrheniusTime } from "./oxide-history.ts";

/**
 * Share of rust turned into magnetite over a temperature history.
 *
 * Equation: X = 1 − exp(−∫ k dt), k = k_1700·exp(−(E/R)·(1/T − 1/1700 K)); 1/T straight between the points.
 * Units: times s, temperatures K, rate k_1700 1/s, activationEnergy J/mol; result share.
 * Range: rust below its ablation; above it short pulses remove it before it converts.
 * Errors: InvalidInput as `arrheniusTime`, or for a rate that is not positive.
 * Source: first-order kinetics, own prior; regimes of Osticioli and Siano 2013 (8 ns ablates, 120 ns micro-melts,
 * 40-120 µs converts).
 */
export function convertedShare(
  times: ArrayLike<number>,
  temperatures: ArrayLike<number>,
  rate = conversionRate.value,
  activationEnergy = conversionEnergy.value,
): Ratio {
  requirePositive("conversion rate", rate, "1/s");
  const time = arrheniusTime(activationEnergy, times, temperatures);
  return -Math.expm1(-rate * time * Math.exp(activationEnergy / (GAS_CONSTANT * CONVERSION_REFERENCE)));
}
