import { GAS_CONSTANT } from "./gas-constant.ts";

/**
 * s, heating time below which an organic layer goes off without charring: volatile fragments leave before they can
 * link into char. Flash pyrolysis at 1e6 K/s still leaves char, nanosecond ablation next to none (from memory): between.
 */
const CHARRING_TIME = 1e-6;

/** K, sublimation of carbon at ambient pressure (CRC Handbook of Chemistry and Physics, from memory). */
export const CARBON_SUBLIMATION = 3915;
/** J/kg, heat of sublimation of carbon as the mix of C, C2 and C3 that leaves at 3900 K (JANAF tables, from memory). */
export const CARBON_SUBLIMATION_HEAT = 30e6;
/** J/(kg·K), heat capacity of hot carbon (CRC Handbook, from memory). */
export const CARBON_HEAT_CAPACITY = 2000;
/** kg/m³: thickness of char is counted as if it were as dense as the coat that it came from. */
const COAT_DENSITY = 1300;
/** kg/(m·s), density times diffusivity of oxygen in air near 2000 K (Chapman-Enskog order, from memory). */
const OXYGEN_MASS_DIFFUSION = 7e-5;
/** ln(1 + B) for C + ½O2 → CO in air: B = 0.232·12/16. */
const TRANSFER = Math.log1p((0.232 * 12) / 16);

/**
 * Share of an organic layer that stays behind as char when it is heated in a given time.
 *
 * Equation: c(τ) = c/(1 + 1 µs/τ).
 * Units: charFraction c 1 (slow heating), time τ s; result 1. Range: time above 0. Errors: none.
 * Source: own derivation (two competing first-order ways, volatile fragments against cross-linking); the time is a prior.
 */
export function charYield(charFraction: number, time: number): number {
  return charFraction / (1 + CHARRING_TIME / time);
}

/**
 * Share of a char layer that burns off in air in a given time at one temperature: reaction and the supply of oxygen in
 * series.
 *
 * Equation: 1 − exp(−t/(1/k + q/v)), k = A·exp(−E/(R·T)), v = (ρD/(w·1300 kg/m³))·ln(1 + B).
 * Units: preExponential 1/s, activationEnergy J/mol, temperature K, time s, thickness q m (as dense as the coat), radius w m; result 1.
 * Range: all above 0. Errors: none.
 * Source: Glassman, Combustion, carbon burning at the diffusion limit (from memory); kinetics from the library.
 */
export function charBurnt(
  kinetics: { readonly preExponential: number; readonly activationEnergy: number },
  temperature: number,
  time: number,
  thickness: number,
  radius: number,
): number {
  const rate = kinetics.preExponential * Math.exp(-kinetics.activationEnergy / (GAS_CONSTANT * temperature));
  const supply = (OXYGEN_MASS_DIFFUSION * TRANSFER) / (radius * COAT_DENSITY);
  return -Math.expm1(-time / (1 / rate + thickness / supply));
}

/**
 * Share of char that sublimates when its temperature, had it no heat of sublimation, would rise to `temperature`.
 *
 * Equation: (T − 3915 K)·c/L, within 0 and 1.
 * Units: temperature K; result 1. Range: above 0. Errors: none. Source: enthalpy balance, own.
 */
export function charSublimated(temperature: number): number {
  const share = ((temperature - CARBON_SUBLIMATION) * CARBON_HEAT_CAPACITY) / CARBON_SUBLIMATION_HEAT;
  return Math.min(1, Math.max(0, share));
}
