import { littleGain } from "./batch.ts";
import { isProven } from "./same-setting.ts";

export type StopVerdict = "go on" | "recommend" | "nothing found";

export interface StopState {
  /** graded patches */
  readonly patches: number;
  /** highest share of versions of the truth in which one setting meets the acceptance */
  readonly bestShare: number;
  /** the present choice: its repeats, null without one */
  readonly repeats: { readonly burned: number; readonly good: number } | null;
  /** expected gain over the choice, null without one */
  readonly gain: number | null;
}

/** Fewest patches before a verdict, and share of versions under which nothing is in sight and from how many patches on. Own choice. */
export const stopLimits = { patches: 12, nothing: 0.08, nothingPatches: 16 } as const;

/**
 * Whether the trial has settled the question: stop with the choice when at least 12 patches are graded, little is left to
 * gain (`littleGain`) and the choice is proven (`isProven`); stop with
 * "nothing found" when at least 16 are and no setting keeps a share of 0.08.
 * Units: shares. Range: any. Errors: none. Source: own rule, held against synthetic trials (docs/study.md).
 */
export function stopVerdict(state: StopState): StopVerdict {
  if (state.patches < stopLimits.patches) return "go on";
  if (state.patches >= stopLimits.nothingPatches && state.bestShare < stopLimits.nothing && state.repeats === null)
    return "nothing found";
  const { repeats, gain } = state;
  if (repeats === null || gain === null) return "go on";
  return gain <= littleGain(state.patches) && isProven(repeats) ? "recommend" : "go on";
}
