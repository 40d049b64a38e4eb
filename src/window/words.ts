import type { Margin } from "#terms";
import { failureUpperBound } from "./failure-bound.ts";
import type { ProbabilitySpread } from "./predict-window.ts";
import { type Repeats, repeatsToProve } from "./same-setting.ts";

/** No more than this is ever said, whatever the number is. */
export const statedMax = 0.95;

/**
 * A probability as it may be said: never above 0.95. `p` 0 to 1; result 0 to 0.95. Throws nothing.
 * Source: own rule; a coupon trial cannot see the last one in twenty.
 */
export function statedProbability(p: number): number {
  return Math.min(statedMax, Math.max(0, p));
}

/** "87 of 100", never more than 95. Rounded down, so that words never promise more than the number. */
export function perHundred(p: number): string {
  return `${Math.floor(100 * statedProbability(p) + 1e-9)} of 100`;
}

export function chanceWords(both: ProbabilitySpread, drifted: boolean): string {
  const under = drifted ? "under the drift allowed for" : "with every value held exactly";
  const capped = both.mean > statedMax ? "; more than 95 of 100 is never claimed from coupons" : "";
  const low = Math.floor(100 * statedProbability(both.low) + 1e-9);
  const high = Math.floor(100 * statedProbability(both.high) + 1e-9);
  return `Expected clean and undamaged on ${perHundred(both.mean)} patches ${under} (90 % range ${low} to ${high})${capped}.`;
}

export function repeatWords(repeats: Repeats): string[] {
  const { burned, good } = repeats;
  if (burned === 0) return ["This setting has not been burned yet: the number rests on its neighbours and on physics."];
  const bound = failureUpperBound(burned, burned - good);
  const shown =
    bound >= 1
      ? "that alone bounds nothing"
      : `that alone shows a failure share below ${Math.ceil(100 * bound - 1e-9)} % (95 % sure)`;
  const words = [`Burned ${times(burned)}, ${good} clean and undamaged: ${shown}.`];
  if (good < burned) words.push("A repeat failed: find out why before this setting is used.");
  return words;
}

export function provenWords(repeats: Repeats, proven: boolean): string {
  if (proven) return `Proven on coupons: ${repeats.good} repeats, every one clean and undamaged.`;
  if (repeats.good < repeats.burned) return "Not proven: not every repeat was clean and undamaged.";
  const missing = repeatsToProve - repeats.good;
  return `Not yet proven: ${missing} more clean, undamaged ${missing === 1 ? "repeat is" : "repeats are"} wanted.`;
}

export function marginWords(margin: Margin): string {
  if (margin.nearestEdge === null || margin.powerPercent === null) {
    return "No distance to a 95 % edge can be given: the setting is below 95 % on one side, or no edge is in reach.";
  }
  const edge = margin.nearestEdge === "clean" ? "residue stays" : "the metal suffers";
  return `The nearest 95 % edge, where ${edge}, is ${margin.powerPercent.toPrecision(2)} % of power away.`;
}

export function times(count: number): string {
  return count === 1 ? "once" : `${count} times`;
}
