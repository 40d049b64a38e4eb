import type { Outcome } from "#terms";

/** What several graders saw on one patch, as one outcome, with what of it they disagree on. */
export interface JoinedOutcome {
  readonly outcome: Outcome;
  /** names of graders, in order of their outcomes */
  readonly graders: readonly string[];
  /** whether two of them gave different residues or metal conditions */
  readonly disagree: boolean;
}

/** Fields that one grader may add to another's: a gauge reading stands beside what a photograph gave. */
const fields = [
  "lightness",
  "roughnessBefore",
  "roughnessAfter",
  "thicknessBefore",
  "thicknessAfter",
  "temperature",
] as const satisfies readonly (keyof Outcome)[];

/**
 * Joins the outcomes of one patch field by field: the last one that says something counts, a residue with its own
 * uncertainty and grader. outcomes: of one patch, at least one, oldest first. Errors: none.
 */
export function joinOutcomes(outcomes: readonly Outcome[]): JoinedOutcome {
  const last = outcomes.at(-1)!;
  const latest = <K extends keyof Outcome>(field: K): Outcome | undefined =>
    outcomes.findLast((outcome) => outcome[field] !== null);
  const residue = latest("residueFraction");
  const metal = latest("metalCondition");
  const measured = Object.fromEntries(fields.map((field) => [field, latest(field)?.[field] ?? null]));
  const differ = (field: "residueFraction" | "metalCondition"): boolean =>
    new Set(outcomes.flatMap((outcome) => outcome[field] ?? [])).size > 1;
  const kinds = [...new Map(outcomes.flatMap((o) => o.tests).map((test) => [test.kind, test])).values()];
  return {
    outcome: {
      ...last,
      ...measured,
      residueFraction: residue?.residueFraction ?? null,
      residueUncertainty: residue?.residueUncertainty ?? null,
      metalCondition: metal?.metalCondition ?? null,
      tests: kinds,
      note: outcomes.findLast(({ note }) => note !== "")?.note ?? "",
      // Who gave the residue, or else the metal condition: that is what the evidence is weighed by.
      grader: (residue ?? metal ?? last).grader,
    },
    graders: [...new Set(outcomes.map(({ grader }) => grader))],
    disagree: differ("residueFraction") || differ("metalCondition"),
  };
}
