import type { Fact } from "#report";
import { captureAirflow } from "#safety";
import { formatQuantity } from "#units";

/** m and m/s: a round flanged hood of 100 mm at 100 and 200 mm from the spot, 0.5 and 1 m/s there (common practice, no source). */
const HOOD = { opening: 0.1, distances: [0.1, 0.2], velocities: [0.5, 1] } as const;

/**
 * How much air an extraction needs, as a span, for the hazard page: what counts is the air at the spot, which is measured.
 * Errors: none. Source: ACGIH Industrial Ventilation, from memory (see `captureAirflow`).
 */
export function airflowFact(): Fact {
  const area = (Math.PI * HOOD.opening ** 2) / 4;
  const flow = (k: 0 | 1): string =>
    formatQuantity(captureAirflow(HOOD.velocities[k], HOOD.distances[k], area, true), "m3/h", 2);
  return {
    name: "extraction at the spot, flanged hood of 100 mm",
    value: `${flow(0)} at 100 mm and 0.5 m/s, to ${flow(1)} at 200 mm and 1 m/s`,
    note:
      "Q = 0.75·V·(10·X² + A), from memory; hood and velocities are common practice, no source. Filter of dust class H " +
      "(EN 60335-2-69). The fume expert decides, and measures the air at the spot.",
  };
}
