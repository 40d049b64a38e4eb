import { CONVERSION_REFERENCE, conversionEnergy, conversionRate } from "#library";
import type { Ratio } from "#terms";
import { requireNonNegative, requirePositive, requireShare } from "#units";
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

/**
 * Thickness that counts as residue where part of the rust has turned into magnetite.
 *
 * Equation: h where magnetite does not pass, h·(1 − X) where the acceptance allows it.
 * Units: thickness h m, share X 1; result m. Range: X 0 to 1.
 * Errors: InvalidInput outside it. Source: own definition; converted rust is still there and counts unless it is allowed.
 */
export function rustResidue(thickness: number, share: Ratio, magnetiteAllowed: boolean): number {
  requireNonNegative("rust thickness", thickness, "m");
  requireShare("converted share", share);
  return magnetiteAllowed ? thickness * (1 - share) : thickness;
}

/** 1/m at 1.064 µm: 4π·k/λ with k 0.370 of magnetite (Querry 1985). */
const MAGNETITE_ABSORPTION = (4 * Math.PI * 0.37) / 1.064e-6;

/**
 * Absorption of rust on its way to magnetite: what converts turns dark and takes the next pulse at its top.
 *
 * Equation: (1 − X)·K_rust + X·4.37e6 1/m.
 * Units: rustAbsorption K 1/m, share X 1; result 1/m. Range: near 1.06 µm.
 * Errors: InvalidInput for a negative K or a share outside 0 to 1. Source: Querry 1985; mixing by volume.
 */
export function convertedAbsorption(rustAbsorption: number, share: Ratio): number {
  requireNonNegative("absorption", rustAbsorption, "1/m");
  return (1 - requireShare("converted share", share)) * rustAbsorption + share * MAGNETITE_ABSORPTION;
}
