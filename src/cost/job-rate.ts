import type { Delivery, Ratio, Second, SquareMetre } from "#terms";
import { requireInteger, requireNonNegative, requirePositive } from "#units";

/** What the paid time of an order goes into, in the order in which it is shown. */
export const timeKinds = ["beam", "turns", "steps", "waits", "pauses", "handling", "preparation"] as const;
export type TimeKind = (typeof timeKinds)[number];

/** The same in the words of the trade. */
export const timeWords: Readonly<Record<TimeKind, string>> = {
  beam: "beam on the part",
  turns: "turn-rounds and returns",
  steps: "moves of head or part",
  waits: "waits for cooling",
  pauses: "pauses of the operator",
  handling: "handling of parts",
  preparation: "preparation of the order",
};

/** s of an order by what it goes into. */
export type TimeSplit = Readonly<Record<TimeKind, Second>>;

export interface JobRate {
  readonly delivery: Delivery;
  /** m², all parts of the order; what seams and strokes clean twice is counted once */
  readonly area: SquareMetre;
  readonly count: number;
  readonly time: TimeSplit;
  /** share of the whole time; the shares add up to 1 */
  readonly shares: Readonly<Record<TimeKind, Ratio>>;
  /** s */
  readonly total: Second;
  /** h */
  readonly hours: number;
  /** m²/s while the beam is on the part */
  readonly beamRate: number;
  /** m²/s with the part in place: everything but handling and preparation */
  readonly partRate: number;
  /** m²/s over the whole order */
  readonly jobRate: number;
  /** sentences that belong beside the figures */
  readonly notes: readonly string[];
}

/**
 * Rates of an order from its times: area/(time counted).
 * @param delivery how the beam is brought to the part
 * @param area m², one part
 * @param count parts, whole, 1 or more
 * @param time s of the whole order; time with the beam on above 0, the others 0 or more
 * @param notes sentences to stand beside the figures
 * @returns m²/s, shares, h
 * Throws InvalidInput outside these ranges. Source: definition.
 */
export function jobRateOf(
  delivery: Delivery,
  area: SquareMetre,
  count: number,
  time: TimeSplit,
  notes: readonly string[] = [],
): JobRate {
  const whole = requirePositive("area", area, "m2") * requireInteger("count", count, 1);
  requirePositive("time with the beam on the part", time.beam, "s");
  for (const kind of timeKinds) requireNonNegative(`time for ${timeWords[kind]}`, time[kind], "s");
  const total = timeKinds.reduce((sum, kind) => sum + time[kind], 0);
  const shares = Object.fromEntries(timeKinds.map((kind) => [kind, time[kind] / total])) as Record<TimeKind, Ratio>;
  return {
    delivery,
    area: whole,
    count,
    time,
    shares,
    total,
    hours: total / 3600,
    beamRate: whole / time.beam,
    partRate: whole / (total - time.handling - time.preparation),
    jobRate: whole / total,
    notes,
  };
}
