import { invalid, requireNonNegative, requirePositive } from "#units";
import { GAS_CONSTANT } from "./gas-constant.ts";

/** A point of the surface while a Gaussian beam passes over it. */
export interface SurfacePass {
  /** s, 1/e² radius of the beam over its speed */
  readonly radiusTime: number;
  /** s from the middle of the pass until the next one, or the end; the tail of the cooling is counted up to there */
  readonly until: number;
  /** K, before the pass */
  readonly start: number;
  /** K, largest rise above `start` */
  readonly rise: number;
}

/** Radius times after the middle of the pass at which the surface is hottest, and the integral there. */
const HOTTEST = { at: 0.382475, value: 1.8099175 } as const;
/** −φ'' at the top in radius times, and the correction from the third and fourth derivatives. */
const BEND = 1.99949;
const SKEW = 0.714;

/**
 * Rise of a surface under a passing Gaussian beam, as a share of its largest rise.
 *
 * Equation: φ(s) = ∫₀^∞ exp(−2(s − q)²)/√q dq over its maximum 1.8099 (at s = 0.3825); s in radius times from the middle.
 * Units: s 1; result 1.
 * Range: heat conducted inwards only: √(4κ·radiusTime) well below the radius; beyond it cooling is faster than this.
 * Errors: none. Source: Carslaw and Jaeger 1959, surface flux on a half-space.
 */
export function passShape(s: number): number {
  if (s < -4) return 0;
  if (s > 6) {
    const inverse = 1 / (s * s);
    return (Math.sqrt(Math.PI / (2 * s)) * (1 + inverse * (0.09375 + 0.0512695 * inverse))) / HOTTEST.value;
  }
  // q = p²: an entire even function of p, for which equal steps converge faster than any power.
  const step = 0.05;
  let sum = 0.5 * Math.exp(-2 * s * s);
  for (let p = step; p * p < s + 5; p += step) sum += Math.exp(-2 * (s - p * p) ** 2);
  return (2 * step * sum) / HOTTEST.value;
}

/** s = 0.3825 + sinh(x)/2 in equal steps of x, from before the beam arrives to 1e6 radius times after it. */
const STEP = 0.08;
const FIRST = -2.56;
const GRID = Array.from({ length: 220 }, (_, i) => {
  const x = FIRST + STEP * i;
  const s = HOTTEST.at + Math.sinh(x) / 2;
  return { s, weight: (STEP * Math.cosh(x)) / 2, share: passShape(s) };
});

/**
 * Time at its peak temperature that one pass counts for in a thermally activated growth, beyond what its starting
 * temperature gives anyway; the tail of the cooling included. Add growth at `start` over the whole time.
 *
 * Equation: t_eff = ∫ (e^(−E/RT) − e^(−E/RT₀)) dt/e^(−E/RT_p), T = T₀ + ΔT·φ(t/t_r) (`passShape`); equal steps of a
 * stretched time, error below 1e-3.
 * Units: see `SurfacePass`; activationEnergy J/mol; result s.
 * Range: as `passShape`; where heat spreads sideways the tail is shorter and this an upper estimate.
 * Errors: InvalidInput for a time, start or energy that is not positive, or a negative rise.
 * Source: own derivation.
 */
export function passReactionTime(pass: SurfacePass, activationEnergy: number): number {
  const radiusTime = requirePositive("radius time", pass.radiusTime, "s");
  const until = requirePositive("time after the pass", pass.until, "s") / radiusTime;
  const start = requirePositive("starting temperature", pass.start, "K");
  const rise = requireNonNegative("temperature rise", pass.rise, "K");
  const theta = requirePositive("activation energy", activationEnergy, "J/mol") / GAS_CONSTANT;
  const atPeak = theta / (start + rise);
  const base = Math.exp(atPeak - theta / start);
  let sum = 0;
  for (const { s, weight, share } of GRID) {
    if (s > until) break;
    sum += weight * (Math.exp(atPeak - theta / (start + rise * share)) - base);
  }
  return radiusTime * sum;
}

/**
 * The same in closed form, for sharp peaks: expanded about the peak (Laplace's method, to second order).
 *
 * Equation: t_eff = t_r·√(2π/(c·w))·(1 + (0.714 − 0.75·ΔT/T_p)/w), w = E·ΔT/(R·T_p²), c = 1.9995 the bend of `passShape`.
 * Units: radiusTime t_r s, peak T_p K, rise ΔT K, activationEnergy J/mol; result s.
 * Range: w from 6: within 3 % of `passReactionTime` without its tail; below that use the latter.
 * Errors: InvalidInput for arguments that are not positive or a rise not below the peak. Source: own derivation.
 */
export function sharpPassReactionTime(
  radiusTime: number,
  peak: number,
  rise: number,
  activationEnergy: number,
): number {
  requirePositive("radius time", radiusTime, "s");
  requirePositive("temperature rise", rise, "K");
  if (!(rise < peak)) invalid("temperature rise", rise, "K", "below the peak temperature");
  const w = (requirePositive("activation energy", activationEnergy, "J/mol") * rise) / (GAS_CONSTANT * peak * peak);
  return radiusTime * Math.sqrt((2 * Math.PI) / (BEND * w)) * (1 + (SKEW - (0.75 * rise) / peak) / w);
}
