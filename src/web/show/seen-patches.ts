import { joinOutcomes } from "#gauging";
import type { Outcome } from "#terms";

/**
 * One outcome for each patch of a trial, for showing: what several graders saw, joined as the window weighs it.
 * outcomes: of one trial, oldest first.
 */
export function seenPatches(outcomes: readonly Outcome[]): Outcome[] {
  const byPatch = new Map<number, Outcome[]>();
  for (const outcome of outcomes) byPatch.set(outcome.patch, [...(byPatch.get(outcome.patch) ?? []), outcome]);
  return [...byPatch.values()].map((of) => joinOutcomes(of).outcome);
}

/** Whether an outcome grades its patch. */
export const isGraded = ({ residueFraction, metalCondition }: Outcome): boolean =>
  residueFraction !== null || metalCondition !== null;

/**
 * The outcome that a typed cell changes: the last that a person gave, or an empty one. What photographs gave stays as it
 * is; a person's word stands beside it.
 */
export function typedOver(outcomes: readonly Outcome[], patch: number, empty: Outcome): Outcome {
  return outcomes.findLast((o) => o.patch === patch && o.grader !== "photographs") ?? empty;
}
