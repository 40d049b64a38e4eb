import { plumeFactor } from "#library";
import type { JoulePerSquareMetre, Second } from "#terms";
import { requireNonNegative, requirePositive } from "#units";

/**
 * Fluence from which the plume of a pulse shades the surface.
 *
 * Equation: F_s = b·√τ.
 * Units: pulseWidth τ s, factor b J/(m²·s^½) (`plumeFactor`, or a draw from it); result J/m².
 * Range: 1 ns to 1 µs; beyond it F_s is above any fluence that a set-up reaches.
 * Errors: InvalidInput for arguments that are not positive.
 * Source: Phipps et al., J. Appl. Phys. 64 (1988) 1083, from memory.
 */
export function plumeThreshold(pulseWidth: Second, factor = plumeFactor.value): JoulePerSquareMetre {
  return (
    requirePositive("plume factor", factor, "J/(m2 s^0.5)") * Math.sqrt(requirePositive("pulse width", pulseWidth, "s"))
  );
}

/**
 * Fluence that arrives at the surface through the plume of its own pulse.
 *
 * Equation: F for F ≤ F_s, F_s·(1 + ln(F/F_s)) above: continuous with its slope, ever rising, ever less of it.
 * Units: fluence F and threshold F_s J/m²; result J/m².
 * Range: single pulses far enough apart for the plume to clear (about 10 µs).
 * Errors: InvalidInput for a negative fluence or a threshold that is not positive.
 * Source: empirical form (common practice, no source): depth per pulse grows with ln F once a plume shades.
 */
export function fluenceThroughPlume(fluence: JoulePerSquareMetre, threshold: JoulePerSquareMetre): JoulePerSquareMetre {
  requireNonNegative("fluence", fluence, "J/m2");
  requirePositive("plume threshold", threshold, "J/m2");
  return fluence <= threshold ? fluence : threshold * (1 + Math.log(fluence / threshold));
}
