import { betaQuantile } from "./beta.ts";
import { normalQuantile } from "./normal.ts";
import { demand } from "./numerical-error.ts";

export interface Interval {
  readonly low: number;
  readonly high: number;
}

function check(successes: number, trials: number, confidence: number): void {
  demand(
    Number.isInteger(trials) && trials > 0,
    `interval of a proportion: trials must be a whole number above 0, got ${trials}`,
  );
  demand(
    Number.isInteger(successes) && successes >= 0 && successes <= trials,
    `interval of a proportion: successes must be a whole number from 0 to ${trials}, got ${successes}`,
  );
  demand(
    confidence > 0 && confidence < 1,
    `interval of a proportion: confidence must be between 0 and 1, got ${confidence}`,
  );
}

/**
 * Score interval of a proportion, clipped to 0 to 1. Counts (1), two-sided confidence (1). Source: wilson-1927.
 * @throws NumericalError for counts that are no counts
 */
export function wilsonInterval(successes: number, trials: number, confidence = 0.95): Interval {
  check(successes, trials, confidence);
  const z = normalQuantile(0.5 + confidence / 2);
  const share = successes / trials;
  const scale = 1 + (z * z) / trials;
  const centre = (share + (z * z) / (2 * trials)) / scale;
  const half = (z / scale) * Math.sqrt((share * (1 - share)) / trials + (z * z) / (4 * trials * trials));
  return {
    low: successes === 0 ? 0 : Math.max(0, centre - half),
    high: successes === trials ? 1 : Math.min(1, centre + half),
  };
}

/**
 * Exact interval of a proportion from the binomial tails. Counts (1), two-sided confidence (1).
 * Source: clopper-pearson-1934.
 * @throws NumericalError for counts that are no counts
 */
export function clopperPearson(successes: number, trials: number, confidence = 0.95): Interval {
  check(successes, trials, confidence);
  const tail = (1 - confidence) / 2;
  const failures = trials - successes;
  return {
    low: successes === 0 ? 0 : betaQuantile(tail, successes, failures + 1),
    high: failures === 0 ? 1 : 1 - betaQuantile(tail, failures, successes + 1),
  };
}
