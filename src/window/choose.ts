import type { Setting } from "#terms";
import type { Choice, ChoiceTable } from "./choice-table.ts";
import type { Repeats } from "./same-setting.ts";

/** Graded repeats of a setting so far. */
export type RepeatCount = (setting: Setting) => Repeats;

/** Settings this close in rate count as equally fast; the surer one is taken. */
const EQUAL_RATE = 0.98;

/**
 * The fastest setting that meets the acceptance under drift in the chosen share of the versions of the truth; among those
 * within 2 % of its rate the surest. One that failed half or more of its repeats is passed over. null when none meets it.
 * Units: confidence a share. Range: 0 to 1. Errors: none. Source: own rule.
 */
export function chooseFastest(table: ChoiceTable, confidence: number, repeats: RepeatCount): Choice | null {
  let best: Choice | null = null;
  let fastest = 0;
  const able = table.choices
    .filter((c) => c.share >= confidence && !failedRepeats(repeats(c.setting)))
    .sort((a, b) => b.areaRate - a.areaRate);
  for (const choice of able) {
    if (best !== null && choice.areaRate < EQUAL_RATE * fastest) break;
    if (best === null) fastest = choice.areaRate;
    if (best === null || sureness(choice) > sureness(best)) best = choice;
  }
  return best;
}

/** Share of versions first, mean chance to tell equal ones apart. */
const sureness = (c: Choice): number => c.share + 0.1 * c.both;

function failedRepeats(r: Repeats): boolean {
  return r.burned > 0 && 2 * r.good <= r.burned;
}

/** The setting likeliest to meet the acceptance, however slow; null for an empty table. */
export function likeliest(table: ChoiceTable): Choice | null {
  return table.choices.reduce<Choice | null>((best, c) => (best === null || c.both > best.both ? c : best), null);
}
