import { seenReadings } from "#contract";
import { leastWrongShare, wrongReadings } from "#grading";
import { invalid } from "#units";
import { loadGradings } from "./gradings.ts";

export interface LapseFlags {
  /** per cent */
  readonly wrongGrades?: number;
  readonly gradings?: readonly string[];
}

/**
 * The share that the evidence is weighed with: as said, or as graded coupons teach it; nothing where neither is given.
 * Errors: InvalidInput for both at once and for files that are no gradings.
 */
export async function lapseOf(flags: LapseFlags): Promise<{ readonly lapse?: number }> {
  const { wrongGrades, gradings } = flags;
  if (gradings !== undefined && wrongGrades !== undefined)
    invalid("wrong grades", wrongGrades, "%", "either this or --gradings, which teach the share");
  if (wrongGrades !== undefined) return { lapse: Math.max(leastWrongShare, wrongGrades / 100) };
  if (gradings === undefined) return {};
  const read = await loadGradings(gradings);
  return { lapse: Math.max(leastWrongShare, wrongReadings(read.map(({ grading }) => seenReadings(grading))).rate) };
}
