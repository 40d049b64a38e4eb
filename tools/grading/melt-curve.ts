import { meltRise } from "#grading";
import type { GradedPatch } from "./graded-plate.ts";

/** share of a patch that melted and is bare, from which it counts as melted */
const meltedFrom = 0.02;

/**
 * Area under the curve of melt against no melt over the patches whose bare metal shows: the chance that of one patch with
 * melt and one without the first reads higher (Mann-Whitney). Null without both. Score: rise of the melt index over the
 * texture of the metal, as the condition is suggested from.
 */
export function areaUnderCurve(patches: readonly GradedPatch[]): number | null {
  const scored = patches.flatMap(({ reading: { melt, referenceMelt }, truth, role }) =>
    melt === null || role !== "test" || (truth.melted > 0 && truth.melted < meltedFrom)
      ? []
      : [{ score: meltRise(melt, referenceMelt), melted: truth.melted > 0 }],
  );
  const [yes, no] = [true, false].map((m) => scored.filter(({ melted }) => melted === m).map(({ score }) => score));
  if (yes!.length === 0 || no!.length === 0) return null;
  let wins = 0;
  for (const a of yes!) for (const b of no!) wins += a > b ? 1 : a === b ? 0.5 : 0;
  return wins / (yes!.length * no!.length);
}
