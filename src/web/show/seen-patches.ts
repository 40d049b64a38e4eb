import type { Outcome } from "#terms";

const measured = [
  "lightness",
  "roughnessBefore",
  "roughnessAfter",
  "thicknessBefore",
  "thicknessAfter",
  "temperature",
  "metalCondition",
] as const satisfies readonly (keyof Outcome)[];

/**
 * One outcome for each patch of a trial, for showing: of several graders the last one that says something counts, field
 * by field, as the window weighs them. outcomes: of one trial, oldest first.
 */
export function seenPatches(outcomes: readonly Outcome[]): Outcome[] {
  const byPatch = new Map<number, Outcome>();
  for (const outcome of outcomes) {
    const before = byPatch.get(outcome.patch);
    byPatch.set(outcome.patch, before === undefined ? outcome : joined(before, outcome));
  }
  return [...byPatch.values()];
}

function joined(before: Outcome, last: Outcome): Outcome {
  const kept = Object.fromEntries(measured.map((field) => [field, last[field] ?? before[field]]));
  const residue = last.residueFraction === null ? before : last;
  return {
    ...last,
    ...kept,
    residueFraction: residue.residueFraction,
    residueUncertainty: residue.residueUncertainty,
    tests: [...new Map([...before.tests, ...last.tests].map((test) => [test.kind, test])).values()],
    note: last.note === "" ? before.note : last.note,
  };
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
