import { requireInteger, requireNonNegative, requirePositive } from "#units";

/**
 * Depth removed by one pulse, z = ln(F/F_th)/α; 0 below the threshold. fluence F, threshold F_th: J/m²; absorption α:
 * 1/m. Result: m. Throws `InvalidInput`. Source: Beer-Lambert with a sharp threshold (textbook form).
 */
export function ablationDepth(fluence: number, threshold: number, absorption: number): number {
  const ratio =
    requireNonNegative("fluence", fluence, "J/m²") / requirePositive("threshold fluence", threshold, "J/m²");
  requirePositive("absorption", absorption, "1/m");
  return ratio <= 1 ? 0 : Math.log(ratio) / absorption;
}

/**
 * Diameter on which a Gaussian pulse is above a threshold, d = 2·√(w²·ln(F₀/F_th)/2) = w·√(2·ln(F₀/F_th)); 0 below.
 * peakFluence F₀, threshold F_th: J/m²; radius w: m, 1/e². Result: m. Throws `InvalidInput`.
 * Source: Liu, Opt. Lett. 7 (1982) 196.
 */
export function craterDiameter(peakFluence: number, threshold: number, radius: number): number {
  const ratio =
    requireNonNegative("peak fluence", peakFluence, "J/m²") / requirePositive("threshold fluence", threshold, "J/m²");
  requirePositive("radius", radius, "m");
  return ratio <= 1 ? 0 : radius * Math.sqrt(2 * Math.log(ratio));
}

/**
 * Threshold after N pulses over that of the first, F_N/F_1 = N^(S − 1). exponent S: 1 means no incubation; pulses N: ≥ 1
 * (not necessarily whole: pulses per point are a mean). Result: 1. Throws `InvalidInput`.
 * Source: Jee, Becker & Walser, J. Opt. Soc. Am. B 5 (1988) 648.
 */
export function incubationFactor(exponent: number, pulses: number): number {
  requirePositive("incubation exponent", exponent);
  return Math.max(1, requirePositive("pulses", pulses)) ** (exponent - 1);
}

/**
 * Sum that heat accumulation of N equal pulses on one spot tends to on a half-space, Σ_{n=1}^{N} n^(−3/2), by
 * Euler-Maclaurin beyond 32 terms; N = Infinity gives ζ(3/2) = 2.612375. pulses N: whole, ≥ 0, or Infinity. Result: 1.
 * Throws `InvalidInput`. Source: Weber et al., Opt. Express 22 (2014) 11312.
 */
export function accumulationSum(pulses: number): number {
  const whole = pulses === Number.POSITIVE_INFINITY ? pulses : requireInteger("pulses", pulses, 0);
  const direct = Math.min(whole, 32);
  let sum = 0;
  for (let n = 1; n <= direct; n++) sum += n ** -1.5;
  // Tail from 33 to N: integral, half end terms and first derivative terms.
  const upTo = (n: number): number =>
    n === Number.POSITIVE_INFINITY ? 0 : -2 * n ** -0.5 + 0.5 * n ** -1.5 - 0.125 * n ** -2.5;
  return whole <= 32 ? sum : sum + upTo(whole) - upTo(32);
}
