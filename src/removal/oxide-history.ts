import { invalid, requireNonNegative, requirePositive } from "#units";
import { GAS_CONSTANT } from "./gas-constant.ts";
import type { OxideConstants } from "./oxide.ts";

/** (1 − e^(−x))/x, 1 at x = 0, without lost digits. */
function meanDecay(x: number): number {
  return Math.abs(x) < 1e-9 ? 1 - x / 2 : -Math.expm1(-x) / x;
}

/**
 * Integral of an Arrhenius factor over a temperature history, exact where 1/T runs straight from point to point.
 *
 * Equation: ∫ exp(−E/(R·T(t))) dt = Σ Δt·(e^(−u₁) − e^(−u₂))/(u₂ − u₁), u = E/(R·T) at the ends of each stretch.
 * Units: activationEnergy J/mol; times s, ascending (equal times: a jump); temperatures K; result s.
 * Range: two points or more, temperatures above 0. Between the points of a smooth history the error falls with the
 * square of their distance: 20 points over a rise by 1000 K keep it below 1 %.
 * Errors: InvalidInput for unequal lengths, falling times or temperatures that are not positive.
 * Source: integral of an exponential; own derivation.
 */
export function arrheniusTime(
  activationEnergy: number,
  times: ArrayLike<number>,
  temperatures: ArrayLike<number>,
): number {
  requirePositive("activation energy", activationEnergy, "J/mol");
  const n = times.length;
  if (n < 2 || temperatures.length !== n)
    invalid("temperature history", `${n} times, ${temperatures.length} temperatures`, "", "as many of both, 2 or more");
  const theta = activationEnergy / GAS_CONSTANT;
  let before = theta / requirePositive("temperature", temperatures[0], "K");
  let sum = 0;
  for (let i = 1; i < n; i++) {
    const step = times[i]! - times[i - 1]!;
    if (!(step >= 0)) invalid("time", times[i], "s", "not below the one before");
    const u = theta / requirePositive("temperature", temperatures[i], "K");
    // Written from the hotter end, so that nothing overflows.
    sum += step * Math.exp(-Math.min(before, u)) * meanDecay(Math.abs(u - before));
    before = u;
  }
  return sum;
}

/**
 * Square of the oxide thickness after any temperature history, m².
 *
 * Equation: x² = x₀² + ∫ k_p(T(t)) dt, k_p = A·exp(−E/(R·T)); 1/T straight between the points (`arrheniusTime`).
 * Units: times s, temperatures K, initialThickness x₀ m; constants as in `OxideConstants`; result m².
 * Range: the range in which the constants were fitted; below it thin films grow faster at first and then stop
 * (logarithmic growth), which this law does not know.
 * Errors: InvalidInput as `arrheniusTime`, or for a negative thickness.
 * Source: parabolic (Wagner) growth; constants per metal from the library, for iron Chen and Yuen 2003.
 */
export function oxideAfterHistory(
  constants: OxideConstants,
  times: ArrayLike<number>,
  temperatures: ArrayLike<number>,
  initialThickness = 0,
): number {
  const grown = constants.preExponential * arrheniusTime(constants.activationEnergy, times, temperatures);
  return requireNonNegative("oxide thickness", initialThickness, "m") ** 2 + grown;
}
