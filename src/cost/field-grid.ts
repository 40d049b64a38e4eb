import type { Metre } from "#terms";
import { invalid, requireNonNegative, requirePositive } from "#units";

/** A length cut into equal fields that overlap at their seams. */
export interface FieldRow {
  readonly fields: number;
  /** m, one field with its overlap */
  readonly size: Metre;
}

/**
 * Fields along a length: n = 1 where it fits, else the smallest n with n·F − (n − 1)·o ≥ L; each is (L + (n − 1)·o)/n.
 * @param length m, L
 * @param fieldSide m, F, largest field
 * @param overlap m, o, at each seam, 0 or more and below F
 * @returns count and size in m
 * Throws InvalidInput outside these ranges. Source: counting.
 */
export function fieldRow(length: Metre, fieldSide: Metre, overlap: Metre): FieldRow {
  requirePositive("length", length, "m");
  requirePositive("field side", fieldSide, "m");
  if (requireNonNegative("overlap of fields", overlap, "m") >= fieldSide)
    invalid("overlap of fields", overlap, "m", `below the field side of ${fieldSide} m`);
  // The last bits of a length that is a whole number of fields open no new field.
  const fields = Math.max(1, Math.ceil((length - overlap) / (fieldSide - overlap) - 1e-9));
  return { fields, size: (length + (fields - 1) * overlap) / fields };
}
