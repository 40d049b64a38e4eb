import type { Outcome } from "#terms";
import { requireText } from "#units";
import type { PatchReading } from "./patch-reading.ts";
import { readingWords } from "./reading-words.ts";
import { type SuggestedCondition, suggestCondition } from "./suggest-condition.ts";

/** An outcome from photographs, with what it rests on. */
export interface ReadOutcome {
  readonly outcome: Outcome;
  readonly reading: PatchReading;
  readonly condition: SuggestedCondition | null;
}

/** Chance from which a suggested condition enters the outcome; below it the grade is left to a person. */
const SURE_ENOUGH = 0.6;
const LONGEST_NOTE = 2000;

/**
 * The outcome that a reading means: residue with its uncertainty, metal condition where one grade is likely, absolute
 * lightness, and what it rests on in words. A residue that is not settled stays null. Below the detection limit the
 * uncertainty is at least half of that limit: nothing seen is not nothing there.
 * trialId and grader: texts. Errors: InvalidInput for empty texts. Source: docs/nomenclature.md for the figures.
 */
export function outcomeFromReading(reading: PatchReading, trialId: string, grader = "photographs"): ReadOutcome {
  const { residue, lightness, absolute, patch } = reading;
  const condition = suggestCondition(reading);
  const sure = condition !== null && condition.chances[condition.grade] >= SURE_ENOUGH;
  const words = readingWords(reading);
  if (condition !== null && !sure) words.push("The metal condition is not clear from the photographs: look at it.");
  const floor = residue === null || residue.value >= residue.detectionLimit ? 0 : residue.detectionLimit / 2;
  return {
    reading,
    condition,
    outcome: {
      trialId: requireText("trial", trialId, 200),
      patch,
      residueFraction: residue?.value ?? null,
      residueUncertainty: residue === null ? null : Math.max(residue.uncertainty, floor),
      metalCondition: sure ? condition.grade : null,
      lightness: lightness !== null && absolute ? Math.min(100, Math.max(0, lightness.value)) : null,
      roughnessBefore: null,
      roughnessAfter: null,
      thicknessBefore: null,
      thicknessAfter: null,
      temperature: null,
      tests: [],
      grader: requireText("grader", grader, 200),
      note: words.join(" ").slice(0, LONGEST_NOTE),
    },
  };
}
