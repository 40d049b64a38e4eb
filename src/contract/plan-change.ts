import { isLaterStage, isTick, standingEntries } from "#trial";
import { type RunEntryWire, runEntryFromWire } from "./run-log-wire.ts";
import { samePlan, type TrialWire, trialFromWire } from "./trial-wire.ts";

/** Whether a plan is the kept one, or adds further patches to it: every patch keeps its number and its setting. */
export const goesOn = (kept: TrialWire, next: TrialWire): boolean =>
  samePlan(kept, next) || isLaterStage(trialFromWire(kept), trialFromWire(next));

/** What is recorded of the patches of a kept plan. */
export interface Recorded {
  /** number of outcomes */
  readonly outcomes: number;
  /** what was done at the machine */
  readonly entries: readonly RunEntryWire[];
}

/**
 * Why a plan may not take the place of the kept one of its name, as the end of a sentence that begins with the trial; null
 * where it may. Outcomes and ticks speak of patches by number, so another plan would give them other settings, and a
 * trial of another part is never what was meant.
 */
export function planRefusal(kept: TrialWire, next: TrialWire, { outcomes, entries }: Recorded): string | null {
  if (kept.enquiry !== next.enquiry || kept.part !== next.part)
    return `belongs to part ${kept.part} of enquiry ${kept.enquiry}: keep this plan under another id`;
  if (goesOn(kept, next)) return null;
  if (outcomes > 0) return "has outcomes already: keep another plan under another id";
  if (standingEntries(entries.map(runEntryFromWire)).some(isTick))
    return "was begun at the machine already: keep another plan under another id";
  return null;
}
