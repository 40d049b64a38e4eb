import { requireShare } from "#units";
import type { PatchReading } from "./patch-reading.ts";

/** What a reading says against the residue that is allowed. */
export type PatchVerdict = "clean" | "residue" | "near the limit" | "not settled";

/** Standard deviations of a 90 % interval. */
const NINETY = 1.645;

/**
 * Verdict of a reading: clean or residue where its 90 % interval lies on one side of the limit, else near it. Not settled
 * where the residue is unknown, or where nothing was seen but the limit lies below what a photograph detects: "clean" is
 * never said of that. residueMax: share of area, 0 to 1. Errors: InvalidInput outside. Source: shared/grading.
 */
export function patchVerdict({ residue }: Pick<PatchReading, "residue">, residueMax: number): PatchVerdict {
  const limit = requireShare("largest residue", residueMax);
  if (residue === null) return "not settled";
  const { value, uncertainty, detectionLimit } = residue;
  if (value - NINETY * uncertainty > limit && value > detectionLimit) return "residue";
  if (limit < detectionLimit) return "not settled";
  return value + NINETY * uncertainty <= limit ? "clean" : "near the limit";
}
