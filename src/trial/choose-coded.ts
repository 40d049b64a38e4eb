import type { Setting } from "#terms";
import type { CandidatePool, PlanCandidate } from "./candidates.ts";
import type { CodedDesign } from "./coded-designs.ts";
import { asDelivered } from "./deliverable.ts";
import { factorWords, settingPoint } from "./factors.ts";
import type { PlanInput } from "./plan-input.ts";
import { inwardAim, pullIn } from "./pull-in.ts";
import { dEfficiency, largestCorrelation, logInformation, regressorRow } from "./regressors.ts";

export interface CodedChoice {
  readonly chosen: readonly PlanCandidate[];
  /** what became of the design on this machine, one sentence each */
  readonly notes: readonly string[];
}

/**
 * The points of a coded design as the set-up can run them: pulled in where a limit cuts them, rounded, once each; with
 * what that cost, as the largest correlation between two controls and the D-efficiency for straight effects.
 */
export function chooseCoded(input: PlanInput, pool: CandidatePool, design: CodedDesign): CodedChoice {
  const { factors, half, rows } = design;
  const base = asDelivered(input.setup, input.centre);
  const runs = (setting: Setting): boolean => pool.runs(setting);
  const aim = inwardAim(base, factors, runs, input.seed);
  const chosen: PlanCandidate[] = [];
  let pulled = 0;
  let dropped = 0;
  for (const row of rows) {
    const t = row.map((x) => 0.5 + half * x);
    const point = pullIn(base, factors, aim, t, runs);
    const candidate = point === null ? null : pool.add(point.setting);
    if (candidate === null) dropped++;
    else {
      chosen.push(candidate);
      if (point!.share < 1) pulled++;
    }
  }
  return { chosen, notes: codedNotes(design, chosen, pulled, dropped) };
}

function codedNotes(
  { factors, half, rows }: CodedDesign,
  chosen: readonly PlanCandidate[],
  pulled: number,
  dropped: number,
): string[] {
  const notes: string[] = [];
  if (pulled > 0) {
    notes.push(
      `${pulled} of ${rows.length} points lay outside the limits of the set-up and ${pulled === 1 ? "was" : "were"} pulled in until it can run them: the design is no longer orthogonal.`,
    );
  }
  if (dropped > 0) {
    notes.push(
      `${dropped} of ${rows.length} points fell on others after pulling in and rounding, and ${dropped === 1 ? "was" : "were"} left out.`,
    );
  }
  if (chosen.length < 2 || factors.length === 0) return notes;
  const coded = chosen.map(({ setting }) => settingPoint(factors, setting).map((t) => (t - 0.5) / half));
  const { value, pair } = largestCorrelation(coded);
  const straight = (points: readonly (readonly number[])[]) => points.map((x) => regressorRow("linear", x));
  const worst =
    value < 0.005
      ? "no two controls are correlated"
      : `the largest correlation between two controls is ${value.toFixed(2)} (${factorWords[factors[pair[0]]!.name]} with ${factorWords[factors[pair[1]]!.name]})`;
  notes.push(`As it can be set, ${worst}${efficiencyWords(straight(coded), straight(rows))}.`);
  return notes;
}

/** Nothing where the design on paper has too few points for all straight effects. */
function efficiencyWords(mine: readonly (readonly number[])[], onPaper: readonly (readonly number[])[]): string {
  if (logInformation(onPaper) === Number.NEGATIVE_INFINITY) return "; it has too few points for all straight effects";
  return `; D-efficiency for straight effects is ${Math.round(100 * dEfficiency(mine, onPaper))} % of the design on paper`;
}
