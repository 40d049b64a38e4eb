import { gaussLegendre } from "#numerics";
import { invalid, requireNonNegative, requirePositive } from "#units";
import { GAS_CONSTANT } from "./gas-constant.ts";

/** One of many equal heatings of a surface. */
export interface SurfacePulse {
  /** s, while the light is on */
  readonly duration: number;
  /** s until the next one; the tail of the cooling is counted up to there */
  readonly period: number;
  /** K, before the pulse */
  readonly start: number;
  /** K, above `start` at the end of the pulse */
  readonly rise: number;
}

const RULE = gaussLegendre(8);

/**
 * ∫ w(φ)·(e^(−θ/(T₀ + ΔT·φ)) − e^(−θ/T₀)) dφ from low to 1 over e^(−θ/(T₀ + ΔT)): pieces over which neither the
 * Arrhenius factor nor a third power changes by more than a factor of about e⁴, eight points each (below 1e-8).
 */
function overPeak(low: number, start: number, rise: number, theta: number, weight: (share: number) => number): number {
  const peak = start + rise;
  const steep = (theta * rise) / (peak * peak);
  const atPeak = theta / peak;
  const base = Math.exp(atPeak - theta / start);
  let high = 1;
  let sum = 0;
  while (high > low) {
    const next = Math.max(low, high - 4 / (steep * (peak / (start + rise * high)) ** 2 + 3 / high));
    const half = (high - next) / 2;
    for (let i = 0; i < 8; i++) {
      const share = next + half * (1 + RULE.nodes[i]!);
      const factor = Math.exp(atPeak - theta / (start + rise * share)) - base;
      sum += RULE.weights[i]! * half * weight(share) * factor;
    }
    // Below this share a heating from next to nothing adds nothing.
    high = next < 1e-9 ? low : next;
  }
  return sum;
}

/**
 * Time at its peak temperature that one pulse counts for in a thermally activated growth, beyond what its starting
 * temperature gives anyway: heating and cooling until the next pulse. Add growth at `start` over the whole time.
 *
 * Equation: rise ΔT·√(t/τ) while on, ΔT·(√(t/τ) − √(t/τ − 1)) after; with φ the share of the rise, dt = 2τφ dφ while on
 * and ½τ(φ⁻³ − φ) dφ after; t_eff = ∫ (e^(−E/RT) − e^(−E/RT₀)) dt/e^(−E/RT_p), by quadrature, error below 1e-6.
 * Units: see `SurfacePulse`; activationEnergy J/mol; result s.
 * Range: heat conducted into a body much thicker than √(4κ·period); a rise of 0 gives 0.
 * Errors: InvalidInput for a duration, start or energy that is not positive, a negative rise, or a period below the
 * duration. Source: Carslaw and Jaeger 1959, surface flux on a half-space; substitution: own derivation.
 */
export function pulseReactionTime(pulse: SurfacePulse, activationEnergy: number): number {
  const duration = requirePositive("pulse width", pulse.duration, "s");
  const start = requirePositive("starting temperature", pulse.start, "K");
  const rise = requireNonNegative("temperature rise", pulse.rise, "K");
  const theta = requirePositive("activation energy", activationEnergy, "J/mol") / GAS_CONSTANT;
  if (!(pulse.period >= duration)) invalid("period", pulse.period, "s", "not below the pulse width");
  if (rise === 0) return 0;
  const ratio = pulse.period / duration;
  // √s − √(s − 1) without lost digits; never so small that a tail of years is summed.
  const low = Math.max(1 / (Math.sqrt(ratio) + Math.sqrt(ratio - 1)), 1e-6);
  const on = overPeak(0, start, rise, theta, (share) => 2 * share);
  const after = overPeak(low, start, rise, theta, (share) => 0.5 * (share ** -3 - share));
  return duration * (on + after);
}

/**
 * The same in closed form, for sharp peaks: heating and cooling expanded about the peak.
 *
 * Equation: t_eff = (2τ/w)·(1 − 2/u + 6/u² + 3/w²), w = E·ΔT/(R·T_p²), u = E/(R·T_p); the first corrections of heating
 * (−1/w) and of cooling (+1/w) cancel and leave that of the bend of 1/T.
 * Units: duration τ s, peak T_p K, rise ΔT K, activationEnergy J/mol; result s.
 * Range: w from 6: within 4 % of `pulseReactionTime`; below that use the latter.
 * Errors: InvalidInput for arguments that are not positive, or u below 4. Source: own derivation (Laplace's method).
 */
export function sharpPulseReactionTime(duration: number, peak: number, rise: number, activationEnergy: number): number {
  requirePositive("pulse width", duration, "s");
  requirePositive("temperature rise", rise, "K");
  const u = requirePositive("activation energy", activationEnergy, "J/mol") / (GAS_CONSTANT * peak);
  if (!(u >= 4)) invalid("peak temperature", peak, "K", "too hot for a thermally activated growth: E/(R T) below 4");
  const w = (u * rise) / peak;
  return ((2 * duration) / w) * (1 - 2 / u + 6 / (u * u) + 3 / (w * w));
}
