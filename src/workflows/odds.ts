import type { LaserSetup, Ratio, Setting } from "#terms";
import type { PartModel } from "./part-model.ts";
import { patchResults, planOf } from "./predict.ts";
import { isClean, isUndamaged } from "./scores.ts";

/** Chances of one setting over the versions of the physics. */
export interface Odds {
  readonly clean: Ratio;
  readonly undamaged: Ratio;
  readonly both: Ratio;
}

/** A share of draws that never claims certainty: one more of each kind than was seen. */
export function shareOf(count: number, of: number): Ratio {
  return (count + 0.5) / (of + 1);
}

/** Chances of each setting by the full evaluation of every draw, whatever the limits of the machine. */
export function oddsOf(model: PartModel, setup: LaserSetup, settings: readonly Setting[]): Odds[] {
  const { acceptance } = model.part;
  return settings.map((setting) => {
    const results = patchResults(model, planOf(model, setup, setting));
    let clean = 0;
    let undamaged = 0;
    let both = 0;
    for (const result of results) {
      const c = isClean(result, acceptance);
      const u = isUndamaged(result, acceptance);
      if (c) clean++;
      if (u) undamaged++;
      if (c && u) both++;
    }
    const n = results.length;
    return { clean: shareOf(clean, n), undamaged: shareOf(undamaged, n), both: shareOf(both, n) };
  });
}
