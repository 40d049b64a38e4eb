import { type GradingWire, seenReadings } from "#contract";
import { leastWrongShare, wrongReadings } from "#grading";

/** Share of wrong grades as the readings teach it that people looked at; nothing while nobody has looked at any. */
export function learntLapse(gradings: readonly GradingWire[]): { readonly lapse?: number } {
  const { looked, rate } = wrongReadings(gradings.map(seenReadings));
  return looked === 0 ? {} : { lapse: Math.max(leastWrongShare, rate) };
}
