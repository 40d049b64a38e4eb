import type { GradingWire, OutcomeWire } from "#contract";
import type { Saved, StoreTransaction } from "#store";
import { invalid } from "#units";

/** Photographs are kept before they are read, so that what a reading rests on can be looked at again. */
async function requirePhotos(tx: StoreTransaction, { photos, flat }: GradingWire): Promise<void> {
  const kept = new Set((await tx.photos()).map((p) => p.sha256));
  photos.forEach(({ sha256 }, i) => {
    if (!kept.has(sha256)) invalid(`grading.photos[${i}].sha256`, sha256, "", "is not kept: send the photograph first");
  });
  if (flat !== null && !kept.has(flat)) invalid("grading.flat", flat, "", "is not kept: send the picture first");
}

/** Says nothing in place of an outcome that no longer stands; rows are never taken away. */
const withdrawn = (outcome: OutcomeWire): OutcomeWire => ({
  ...outcome,
  residue_percent: null,
  residueUncertainty_percent: null,
  metalCondition: null,
  lightness: null,
  note: "The reading of the photographs was withdrawn.",
});

/** A new version of a grading, and a row for each outcome that it changes. Throws VersionConflict when it has moved on. */
export async function saveGrading(
  tx: StoreTransaction,
  grading: GradingWire,
  expected: number,
): Promise<Saved<GradingWire>> {
  await requirePhotos(tx, grading);
  const before = await tx.latest("grading", grading.id);
  const saved = await tx.put("grading", grading, expected);
  const earlier = new Map((before?.record.patches ?? []).map((p) => [p.patch, p.outcome]));
  const rows = grading.patches.flatMap(({ patch, outcome }): OutcomeWire[] => {
    const was = earlier.get(patch) ?? null;
    if (outcome === null) return was === null ? [] : [withdrawn(was)];
    return JSON.stringify(outcome) === JSON.stringify(was) ? [] : [outcome];
  });
  if (rows.length > 0) await tx.addOutcomes(grading.trial, rows);
  return saved;
}
