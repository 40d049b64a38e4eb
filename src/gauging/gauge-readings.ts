import { invalid, requireFinite } from "#units";

/** Readings by part, grader and repeat, in one unit. */
export type GaugeReadings = readonly (readonly (readonly number[])[])[];

/** Sizes of a crossed study. Throws InvalidInput unless there are 2 of each at least and no reading is missing. */
export function checkStudy(readings: GaugeReadings): {
  readonly parts: number;
  readonly graders: number;
  readonly repeats: number;
} {
  const parts = readings.length;
  const graders = readings[0]?.length ?? 0;
  const repeats = readings[0]?.[0]?.length ?? 0;
  if (parts < 2) invalid("parts", parts, "", "a gauge study needs 2 or more");
  if (graders < 2) invalid("graders", graders, "", "a gauge study needs 2 or more");
  if (repeats < 2) invalid("repeats", repeats, "", "a gauge study needs 2 or more");
  for (const part of readings) {
    if (part.length !== graders)
      invalid("graders of a part", part.length, "", `must be ${graders}: all grade all parts`);
    for (const cell of part) {
      if (cell.length !== repeats) invalid("repeats of a part", cell.length, "", `must be ${repeats} throughout`);
      for (const value of cell) requireFinite("reading", value);
    }
  }
  return { parts, graders, repeats };
}
