import type { Setting } from "#terms";
import type { Choice, ChoiceTable } from "./choice-table.ts";
import type { Repeats } from "./same-setting.ts";

/** Graded repeats of a setting so far. */
export type RepeatCount = (setting: Setting) => Repeats;

/** Settings this close in worth count as equal; the surer one is taken. */
const EQUAL = 0.98;
/** What each of the first two good repeats is worth, as a share of the rate: proof in hand against speed on paper. */
const PROOF = 0.06;

/**
 * The fastest setting that meets the acceptance under drift in the chosen share of the versions of the truth, where every
 * good repeat that a setting has already counts like 6 % of rate, two at most; among those within 2 % of the best the surest.
 * One that failed half or more of its repeats is passed over. null when none meets it.
 * Units: confidence a share. Range: 0 to 1. Errors: none. Source: own rule, held against synthetic trials (docs/study.md).
 */
export function chooseFastest(table: ChoiceTable, confidence: number, repeats: RepeatCount): Choice | null {
  const able = table.choices.flatMap((choice) => {
    if (choice.share < confidence) return [];
    const r = repeats(choice.setting);
    if (failedRepeats(r)) return [];
    const proof = r.good === r.burned ? Math.min(2, r.good) : 0;
    return [{ choice, worth: choice.areaRate * (1 + PROOF * proof) }];
  });
  const most = able.reduce((m, a) => Math.max(m, a.worth), 0);
  let best: Choice | null = null;
  for (const { choice, worth } of able)
    if (worth >= EQUAL * most && (best === null || sureness(choice) > sureness(best))) best = choice;
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
