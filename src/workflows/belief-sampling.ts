import { allParticles, type Posterior } from "#calibration";
import type { Belief, Lesson } from "#terms";
import { requireInRange } from "#units";

/**
 * Effective number of versions of the physics that a posterior rests on.
 * Equation: 1/Σ w², w the share of the posterior that each version holds. Units: 1, from 1 to the number of versions.
 * Errors: none. Source: Kish, Survey Sampling (1965).
 */
export function versionsBehind(posterior: Posterior): number {
  const { draw, count } = allParticles(posterior);
  const shares = new Map<number, number>();
  for (let m = 0; m < count; m++) shares.set(draw[m]!, (shares.get(draw[m]!) ?? 0) + 1 / count);
  return 1 / [...shares.values()].reduce((sum, w) => sum + w * w, 0);
}

/**
 * A belief with the chance of its few versions of the physics counted in: what a handful of versions have in common by
 * accident is not carried to the next job as if it had been learnt. Shifts are drawn for every particle and stay.
 *
 * Equation: s'² = s²·N/(N − 1), capped at 1; mean' = mean·k, k = (1 − s'²)/(1 − s'² + 1/N); spread' = √(s'² + 1/N), capped at
 * 1. By the law of total variance a posterior mean varies by 1 − s'² where the prior varies by 1; the mean of N versions
 * errs by 1/N at most of the prior's.
 * Units: the scale where the library's prior is standard normal; N from 1. Errors: InvalidInput for N below 1.
 * Source: own derivation.
 */
export function withSamplingError(belief: Belief, versions: number): Belief {
  requireInRange("versions behind a belief", versions, "", 1, Number.MAX_VALUE);
  const error = 1 / versions;
  const widened = ({ coordinate, mean, spread }: Lesson): Lesson => {
    const own = versions > 1 ? Math.min(1, (spread ** 2 * versions) / (versions - 1)) : 1;
    const moved = 1 - own;
    return {
      coordinate,
      mean: (mean * moved) / (moved + error),
      spread: Math.min(1, Math.sqrt(own + error)),
    };
  };
  return { ...belief, lessons: belief.lessons.map(widened) };
}
