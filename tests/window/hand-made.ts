import type { Choice, ChoiceTable } from "#window";
import { pulsed } from "../calibration/synthetic.ts";

/** A choice that meets the acceptance in the versions marked 1; the rate also names its setting. */
export function choice(areaRate: number, meets: readonly number[], more: Partial<Choice> = {}): Choice {
  const share = meets.reduce((a, b) => a + b, 0) / meets.length;
  return {
    setting: pulsed(areaRate),
    areaRate,
    meets: Uint8Array.from(meets),
    share,
    clean: share,
    undamaged: share,
    both: share,
    family: areaRate,
    ...more,
  };
}

export const table = (...choices: readonly Choice[]): ChoiceTable => ({
  draws: choices[0]?.meets.length ?? 0,
  choices,
});

export const noRepeats = () => ({ burned: 0, good: 0 });
