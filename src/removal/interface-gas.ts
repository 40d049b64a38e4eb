import { GAS_CONSTANT } from "./gas-constant.ts";

/** s, the time at which the library's interface temperatures are stated. */
export const INTERFACE_REFERENCE_TIME = 100e-9;

/**
 * Temperature at which the skin of a layer at its interface has given off enough gas to throw the layer off.
 *
 * Equation: 1/T_i = 1/T_ref + (R/E_i)·ln(τ/(100 ns·need)); `need` is the factor on the needed conversion (film
 * strength, adhesion above or below the median).
 * Units: referenceTemperature K, activationEnergy J/mol, time s, need 1; result K.
 * Range: time and need above 0; Infinity where the right side is not positive (no temperature is high enough).
 * Errors: none.
 * Source: own derivation (iso-conversion of a first-order reaction); its constants are priors.
 */
export function interfaceGasTemperature(
  referenceTemperature: number,
  activationEnergy: number,
  time: number,
  need = 1,
): number {
  const inverse =
    1 / referenceTemperature + (GAS_CONSTANT / activationEnergy) * Math.log(time / (INTERFACE_REFERENCE_TIME * need));
  return inverse > 0 ? 1 / inverse : Number.POSITIVE_INFINITY;
}

/**
 * How many times over the needed conversion is met at an interface temperature: the inverse reading of
 * `interfaceGasTemperature`, as a natural logarithm (0: just met by a layer of median adhesion).
 *
 * Equation: ln a = ln(τ/100 ns) + (E_i/R)·(1/T_ref − 1/T) − ln(need).
 * Units: temperature K, the others as above; result 1.
 * Range: temperature above 0.
 * Errors: none.
 * Source: own derivation.
 */
export function interfaceGasStrength(
  referenceTemperature: number,
  activationEnergy: number,
  time: number,
  temperature: number,
  need = 1,
): number {
  return (
    Math.log(time / INTERFACE_REFERENCE_TIME) +
    (activationEnergy / GAS_CONSTANT) * (1 / referenceTemperature - 1 / temperature) -
    Math.log(need)
  );
}

/**
 * Factor on the needed conversion for a film that is held by its surroundings: the gas must also shear the film
 * around the rim of the spot.
 *
 * Equation: 1 + 2·h·τ_s/(r·σ_ad).
 * Units: thickness h m, filmStrength τ_s Pa, radius r m, adhesionStrength σ_ad Pa; result 1.
 * Range: all above 0.
 * Errors: none.
 * Source: own derivation (force balance of a disc of radius r held at its rim and its face).
 */
export function filmFactor(thickness: number, filmStrength: number, radius: number, adhesionStrength: number): number {
  return 1 + (2 * thickness * filmStrength) / (radius * adhesionStrength);
}

/**
 * In-plane thermal stress of a brittle layer over its adhesion, as a natural logarithm (0: just lifts).
 *
 * Equation: ln(E·|Δα|·ΔT/((1 − ν)·σ_ad)).
 * Units: youngsModulus Pa, expansionDifference 1/K, rise K, poissonRatio 1, adhesionStrength Pa; result 1.
 * Range: ν below 1; −Infinity for no rise. Only for layers that stay brittle when hot: organic films soften first.
 * Errors: none.
 * Source: Timoshenko and Goodier, Theory of Elasticity, biaxial thermal stress of a clamped film.
 */
export function stressStrength(
  youngsModulus: number,
  expansionDifference: number,
  rise: number,
  poissonRatio: number,
  adhesionStrength: number,
): number {
  return Math.log((youngsModulus * Math.abs(expansionDifference) * rise) / ((1 - poissonRatio) * adhesionStrength));
}

/** m/s, speed at which hot decomposition gas runs off sideways: √(γRT/M) with γ 1.2, T 900 K, M 0.05 kg/mol. */
const GAS_SPEED = 424;

/** K, film temperature at which an organic film has lost its stiffness, and over which it does (from memory). */
const SOFTENING = { middle: 470, width: 40 } as const;

/**
 * Length that the gas has to run before it is free: under a stiff film to the rim of the spot, through a hot and soft
 * one just to its outer face.
 *
 * Equation: L = h + (r − h)·s, s = 1/(1 + exp((T_film − 470 K)/40 K)); never less than h.
 * Units: radius r m, thickness h m, filmTemperature (mean over the film) K; result m.
 * Range: all above 0. Errors: none. Source: own derivation; the softening temperature is from memory.
 */
export function ventLength(radius: number, thickness: number, filmTemperature: number): number {
  const stiff = 1 / (1 + Math.exp((filmTemperature - SOFTENING.middle) / SOFTENING.width));
  return thickness + Math.max(0, radius - thickness) * stiff;
}

/**
 * Factor on the needed conversion because gas runs off while it is made: a short pulse shuts it in, a slow pass lets
 * it go, so that in the end the rate of gas counts and not its amount.
 *
 * Equation: 1 + τ·c/L.
 * Units: time τ s, length L m (`ventLength`); c = 424 m/s; result 1.
 * Range: all above 0. Errors: none.
 * Source: own derivation (gas made in τ, lost in L/c); order of magnitude only, a prior.
 */
export function ventingFactor(time: number, length: number): number {
  return 1 + (time * GAS_SPEED) / length;
}

/**
 * s, time in which a brittle oxide layer sheds thermal stress (dehydration, micro-cracks): between the 120 ns that
 * still throw rust off and the 40 µs that turn it into magnetite instead, geometric middle.
 */
const STRESS_RELIEF_TIME = 2e-6;

/**
 * Share of the thermal stress that a brittle layer still holds after heating for τ, as a natural logarithm.
 *
 * Equation: −ln(1 + τ/(2 µs)).
 * Units: time s; result 1. Range: above 0. Errors: none.
 * Source: own derivation; the time from the regimes of Osticioli and Siano, Proc. SPIE 9065 (2013) 906513.
 */
export function stressHeld(time: number): number {
  return -Math.log1p(time / STRESS_RELIEF_TIME);
}
