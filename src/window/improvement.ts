import { meanProbabilities, type WindowDraws } from "./predict-window.ts";
import { type Candidate, type Drift, robustProbabilities } from "./robust.ts";

/** Rate of each screened candidate in each draw: its area rate where it is good enough there, else 0. m²/s. */
export interface RateTable {
  readonly candidates: readonly Candidate[];
  /** candidate by candidate, `draws` values each */
  readonly rates: readonly Float64Array[];
  readonly draws: number;
}

const screenDraws = 60;
const screenLength = 120;
export const improvementDraws = 240;

/**
 * The candidates worth a close look: the likeliest and the likely fast, 120 of each at most (the whole list where
 * it is short). Order of the input kept.
 */
export function screenCandidates(fit: WindowDraws, candidates: readonly Candidate[]): Candidate[] {
  if (candidates.length <= 2 * screenLength) return [...candidates];
  const draws = Math.min(screenDraws, fit.draws);
  const both = candidates.map((c) => meanProbabilities(fit, c.features, draws).both);
  const order = candidates.map((_, i) => i);
  const likely = [...order].sort((a, b) => both[b]! - both[a]!).slice(0, screenLength);
  const fast = [...order]
    .sort((a, b) => both[b]! * candidates[b]!.areaRate - both[a]! * candidates[a]!.areaRate)
    .slice(0, screenLength);
  const wanted = new Set([...likely, ...fast]);
  return candidates.filter((_, i) => wanted.has(i));
}

/** In each draw a candidate earns its rate when its chance of clean and undamaged under drift meets `confidence`. */
export function rateTable(
  fit: WindowDraws,
  candidates: readonly Candidate[],
  drift: Drift | undefined,
  confidence: number,
): RateTable {
  const draws = Math.min(improvementDraws, fit.draws);
  const rates = candidates.map((candidate) =>
    robustProbabilities(fit, candidate, drift, draws).map((p) => (p >= confidence ? candidate.areaRate : 0)),
  );
  return { candidates, rates, draws };
}

/**
 * Expected improvement: mean over draws of max(0, rate − best so far), m²/s. `best` holds the best rate of each draw.
 * Throws nothing. Source: Mockus; Jones, Schonlau and Welch, J. Global Optimization 13 (1998), over posterior draws.
 */
export function expectedImprovement(rate: Float64Array, best: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < best.length; i++) sum += Math.max(0, rate[i]! - best[i]!);
  return sum / best.length;
}
