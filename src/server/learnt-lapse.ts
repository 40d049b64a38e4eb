import { type GradingWire, seenReadings } from "#contract";
import { wrongReadings } from "#grading";

/** No grader is never wrong: the model wants a share above none. */
const LAPSE_LEAST = 1e-4;

/** Share of wrong grades as the readings teach it that people looked at; nothing while nobody has looked at any. */
export function learntLapse(gradings: readonly GradingWire[]): { readonly lapse?: number } {
  const { looked, rate } = wrongReadings(gradings.map(seenReadings));
  return looked === 0 ? {} : { lapse: Math.max(LAPSE_LEAST, rate) };
}
