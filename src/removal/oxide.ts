import { GAS_CONSTANT } from "./gas-constant.ts";

export interface OxideConstants {
  /** m²/s */
  readonly preExponential: number;
  /** J/mol */
  readonly activationEnergy: number;
}

/**
 * Square of the oxide thickness grown in a time at one temperature, m².
 *
 * Equation: x² = k_p·t, k_p = A·exp(−E/(R·T)).
 * Units: temperature K, time s; constants as in `OxideConstants`; result m².
 * Range: the range in which the constants were fitted (library); outside it is an extrapolation.
 * Errors: none.
 * Source: parabolic (Wagner) growth; constants per metal from the library, for iron Chen and Yuen 2003.
 */
export function oxideGrowthSquared(constants: OxideConstants, temperature: number, time: number): number {
  return constants.preExponential * Math.exp(-constants.activationEnergy / (GAS_CONSTANT * temperature)) * time;
}

/**
 * Time that one heating of a surface counts for at its peak temperature in a thermally activated growth.
 *
 * Equation: for a rise like √t to the peak, t_eff = 2·τ·R·T²/(E·ΔT), at most τ (the first term of the Laplace
 * expansion of ∫exp(−E/(R·T(t))) dt; an upper estimate although it leaves out the cooling, which is over at once).
 * Units: duration s, peak K, rise K, activationEnergy J/mol; result s.
 * Range: rise above 0. Errors: none. Source: own derivation.
 */
export function reactionTime(duration: number, peak: number, rise: number, activationEnergy: number): number {
  const factor = (2 * GAS_CONSTANT * peak * peak) / (activationEnergy * rise);
  return duration * Math.min(1, factor);
}
