import { GAS_CONSTANT } from "./gas-constant.ts";

/**
 * s, heating time at which half of an organic layer chars: nanosecond ablation leaves next to none, flash pyrolysis in a
 * millisecond (1e6 K/s) still all of it (from memory); geometric middle of 100 ns and 1 ms.
 */
const CHARRING_TIME = 10e-6;

/** K, sublimation of carbon at ambient pressure (CRC Handbook of Chemistry and Physics, from memory). */
export const CARBON_SUBLIMATION = 3915;
/** J/kg, heat of sublimation of carbon as the mix of C, C2 and C3 that leaves at 3900 K (JANAF tables, from memory). */
export const CARBON_SUBLIMATION_HEAT = 30e6;
/** J/(kg·K), heat capacity of hot carbon (CRC Handbook, from memory). */
export const CARBON_HEAT_CAPACITY = 2000;
/** kg/(m·s), density times diffusivity of oxygen in air near 2000 K (Chapman-Enskog order, from memory). */
const OXYGEN_MASS_DIFFUSION = 7e-5;
/** ln(1 + B) for C + ½O2 → CO in air: B = 0.232·12/16. */
const TRANSFER = Math.log1p((0.232 * 12) / 16);

/**
 * Share of what is eaten of an organic layer that chars instead of leaving altogether.
 *
 * Equation: y(τ) = 1/(1 + 10 µs/τ).
 * Units: time τ s; result 1. Range: time above 0. Errors: none.
 * Source: own derivation (two competing first-order ways, volatile fragments against cross-linking); the time is a prior.
 */
export function charYield(time: number): number {
  return 1 / (1 + CHARRING_TIME / time);
}

/**
 * Share of a char layer that burns off in air in a given time at one temperature: reaction and the supply of oxygen in
 * series.
 *
 * Equation: 1 − exp(−t/(1/k + q/v)), k = A·exp(−E/(R·T)), v = (ρD/(w·ρ_c))·ln(1 + B).
 * Units: preExponential 1/s, activationEnergy J/mol, temperature K, time s, thickness q m, density ρ_c of the char kg/m³,
 * radius w m; result 1.
 * Range: all above 0; a share below 0.002 is given as 0. Errors: none.
 * Source: Glassman, Combustion, carbon burning at the diffusion limit (from memory); kinetics from the library.
 */
export function charBurnt(
  kinetics: { readonly preExponential: number; readonly activationEnergy: number },
  temperature: number,
  time: number,
  thickness: number,
  density: number,
  radius: number,
): number {
  const supply = (OXYGEN_MASS_DIFFUSION * TRANSFER) / (radius * density);
  // A short event cannot bring the oxygen for it, however hot it is.
  if (time * supply < 2e-3 * thickness) return 0;
  const rate = kinetics.preExponential * Math.exp(-kinetics.activationEnergy / (GAS_CONSTANT * temperature));
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

/**
 * Heat that char takes until it is gone, from a start, J/kg: c·(3915 K − T) + L.
 * Units: start K. Range: below 3915 K. Errors: none. Source: enthalpy balance, own.
 */
export function charHeat(start: number): number {
  return CARBON_HEAT_CAPACITY * (CARBON_SUBLIMATION - start) + CARBON_SUBLIMATION_HEAT;
}

/** s, pulse shorter than this pushes on what it vaporises harder than on the air around it (from memory). */
const RECOIL_TIME = 1e-6;

/**
 * Share of a porous char that is shattered when a pulse flashes its top to vapour: char holds some 0.1 MPa, the recoil
 * of a nanosecond flash is megapascals; a slow beam vaporises without a blow.
 *
 * Equation: 1/(1 + τ/1 µs).
 * Units: time τ s; result 1. Range: above 0; only where the top reaches 3915 K. Errors: none.
 * Source: own prior; order of the recoil from Phipps et al., J. Appl. Phys. 64 (1988) 1083, from memory.
 */
export function charShattered(time: number): number {
  return 1 / (1 + time / RECOIL_TIME);
}
