import type { KnownNumber } from "#library";
import type { Lesson } from "#terms";
import { invalid } from "#units";

/** Nothing is carried as better known than this share of the library's spread: own choice, since parts differ. */
export const SPREAD_FLOOR = 0.3;

/** A lesson and how much of it counts for the job at hand. */
export interface CountedLesson {
  readonly lesson: Lesson;
  /** share of its information, above 0 and up to 1 */
  readonly share: number;
}

/** Errors: InvalidInput for a lesson without a finite mean or without a positive spread; `where` names its trial. */
export function requireLesson({ coordinate, mean, spread }: Lesson, where: string): void {
  if (!Number.isFinite(mean)) invalid(`mean of ${coordinate} (${where})`, mean, "", "must be a finite number");
  if (!(spread > 0 && Number.isFinite(spread)))
    invalid(`spread of ${coordinate} (${where})`, spread, "", "must be greater than 0");
}

/**
 * What lessons on one number leave to start from, each counted with a share of its information.
 *
 * Equation: P = 1 + Σ k·(1/s² − 1), mean' = Σ k·m/s² / P, spread' = max(1/√P, 0.3); s is taken as 1 where it is larger.
 * Units: means m and spreads s on the scale where the library's prior is standard normal; shares k and results 1.
 * Range: 0 < k <= 1; with one lesson spread' lies from its own spread to 1, and k = 1 gives the lesson back above 0.3.
 * Errors: none of its own, see `requireLesson`. Source: own (normal likelihoods to the power k, precisions relative to
 * the prior); the floor and the shares are own choices, not measured ones.
 */
export function widened(lessons: readonly CountedLesson[]): KnownNumber {
  let precision = 1;
  let pull = 0;
  for (const { lesson, share } of lessons) {
    const information = 1 / Math.min(1, lesson.spread) ** 2;
    precision += share * (information - 1);
    pull += share * lesson.mean * information;
  }
  return { mean: pull / precision, spread: Math.max(SPREAD_FLOOR, 1 / Math.sqrt(precision)) };
}
