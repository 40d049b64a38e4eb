import type { JobRate } from "./job-rate.ts";
import { type ResultSpread, spreadOf } from "./spread-of.ts";
import type { Stated } from "./stated.ts";

/** Low and high end of a figure (5 and 95 of 100 cases); its middle stands where the figure itself stands. */
export interface Range {
  readonly low: number;
  readonly high: number;
}

/** Figures of a task that may have a spread: everything measured, nothing counted. */
export type SpreadKey<T> = Exclude<
  { [K in keyof T & string]-?: NonNullable<T[K]> extends number ? K : never }[keyof T & string],
  "count" | "passes" | "kinds"
>;

export type Ranges<T> = { readonly [K in SpreadKey<T>]?: Range };

/** Ranges around the figures of a task or case; `shares` have the upper end 1. A figure left out counts as 0. */
export function statedAround<T extends object>(
  base: T,
  ranges: Ranges<T>,
  shares: readonly string[] = [],
): Record<string, Stated> {
  const given = Object.entries(ranges as Record<string, Range | undefined>).filter(([, range]) => range !== undefined);
  return Object.fromEntries(
    given.map(([name, range]) => {
      const middle = ((base as Record<string, unknown>)[name] as number | undefined) ?? 0;
      const end = shares.includes(name) ? { atMost: 1 } : {};
      return [name, { low: range!.low, middle, high: range!.high, ...end }];
    }),
  );
}

/** shares among the figures of the hand and robot tasks */
const SHARES = ["beamOnShare", "pauseShare", "strokeOverlap"];

/**
 * Hours for an order with their spread: T over the stated spreads of the task's figures (model: see spreadOf).
 * @param rate scanRate, handRate or robotRate
 * @param task its figures at the middle of their spread
 * @param ranges low and high ends by the task's own names and units; what is not named is taken as exact
 * @returns h: 5, 50 and 95 % of cases, with the sentence to stand beside them
 * Throws InvalidInput on a range that does not hold the middle, and as `rate`. Source: see spreadOf.
 */
export function orderHours<T extends object>(rate: (task: T) => JobRate, task: T, ranges: Ranges<T>): ResultSpread {
  return spreadOf(statedAround(task, ranges, SHARES), (values) => rate({ ...task, ...values }).hours);
}
