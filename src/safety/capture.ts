import type { Metre, MetrePerSecond, SquareMetre, Watt, Joule } from "#terms";
import { requireNonNegative, requirePositive } from "#units";

/**
 * Airflow that catches fume at a distance X in front of an opening: Q = V·(10·X² + A), × 0.75 with a flange.
 * @param velocity m/s, capture velocity V at the source of the fume
 * @param distance m, X
 * @param opening m², A
 * @param flanged true when the opening has a flange
 * @returns m³/s
 * Valid up to about 1.5 opening diameters. Throws InvalidInput when V or A is not positive or X negative.
 * Source: ACGIH Industrial Ventilation, from memory.
 */
export function captureAirflow(
  velocity: MetrePerSecond,
  distance: Metre,
  opening: SquareMetre,
  flanged: boolean,
): number {
  const reach = requireNonNegative("distance", distance, "m");
  return (
    requirePositive("capture velocity", velocity, "m/s") *
    (10 * reach * reach + requirePositive("opening", opening, "m2")) *
    (flanged ? 0.75 : 1)
  );
}

/**
 * What passive curtains are not made for: more than 100 W mean or 30 J per pulse (EN 12254, from memory).
 * @param meanPower W
 * @param pulseEnergy J, null for a steady beam
 * @returns a sentence, or null where curtains to EN 12254 may serve
 */
export function curtainNote(meanPower: Watt, pulseEnergy: Joule | null): string | null {
  if (meanPower <= 100 && (pulseEnergy ?? 0) <= 30) return null;
  return "Passive curtains to EN 12254 cover only 100 W mean or 30 J per pulse: this beam needs walls or an enclosure that are made for it (IEC 60825-4).";
}
