import { interpolateLinear } from "#numerics";
import type { JoulePerSquareMetre, Metre } from "#terms";
import { invalid, requireNonNegative, requirePositive } from "#units";

/** What one event takes off around its middle: depth over the squared distance, straight between the entries. */
export interface DepthProfile {
  /** m², ascending from 0; nothing is taken off beyond the last */
  readonly r2: Float64Array;
  /** m; the last is 0 */
  readonly depth: Float64Array;
}

/**
 * Crater of a Gaussian pulse under a logarithmic law.
 *
 * Equation: z(r²) = δ·ln(F(r)/F_th), F(r) = F₀·exp(−2r²/w²), so z falls in a straight line over r² from δ·ln(F₀/F_th) to
 * 0 at r² = (w²/2)·ln(F₀/F_th): the table needs two entries and is exact.
 * Units: perLn δ m, peakFluence F₀ and threshold F_th J/m², radius w m (1/e²); result m over m².
 * Range: all above 0; below the threshold a crater of no depth and no width. Errors: InvalidInput.
 * Source: Beer-Lambert with a sharp threshold; crater width Liu, Opt. Lett. 7 (1982) 196.
 */
export function logarithmicProfile(
  perLn: Metre,
  peakFluence: JoulePerSquareMetre,
  threshold: JoulePerSquareMetre,
  radius: Metre,
): DepthProfile {
  requirePositive("depth per ln fluence", perLn, "m");
  requirePositive("radius", radius, "m");
  const ln = Math.log(
    requirePositive("peak fluence", peakFluence, "J/m2") / requirePositive("threshold fluence", threshold, "J/m2"),
  );
  if (ln <= 0) return { r2: Float64Array.of(0), depth: Float64Array.of(0) };
  return { r2: Float64Array.of(0, 0.5 * radius * radius * ln), depth: Float64Array.of(perLn * ln, 0) };
}

/**
 * Depth at a squared distance. r2: m², 0 or more; result m, 0 beyond the table.
 * Errors: none. Source: own (straight lines between entries).
 */
export function profileDepth(profile: DepthProfile, r2: number): Metre {
  const last = profile.r2.length - 1;
  return r2 >= profile.r2[last]! ? 0 : interpolateLinear(profile.r2, profile.depth, r2);
}

/** A profile as a sum of hinges, depth = Σ slope·max(0, edge − r²). */
export interface Hinges {
  /** edge m² and slope m/m² of each hinge in turn */
  readonly pairs: Float64Array;
  /** m, largest distance at which something is taken off */
  readonly reach: Metre;
  /** m, by how much the depth of one event may differ from the profile's */
  readonly error: Metre;
}

/** Entries between `first` and `last` that a straight line would miss by more than the tolerance (Douglas-Peucker). */
function kept(profile: DepthProfile, first: number, last: number, tolerance: number, into: number[]): number {
  const { r2, depth } = profile;
  let worst = 0;
  let at = -1;
  for (let i = first + 1; i < last; i++) {
    const share = (r2[i]! - r2[first]!) / (r2[last]! - r2[first]!);
    const miss = Math.abs(depth[i]! - depth[first]! - share * (depth[last]! - depth[first]!));
    if (miss > worst) [worst, at] = [miss, i];
  }
  if (worst <= tolerance || at < 0) return worst;
  const left = kept(profile, first, at, tolerance, into);
  into.push(at);
  return Math.max(left, kept(profile, at, last, tolerance, into));
}

/**
 * Turns a profile into as few hinges as a tolerance allows. A logarithmic law needs one; a table from a law with several
 * ways off three to five. A flat top, whose depth would jump, is written as a steep last stretch.
 *
 * Equation: with slopes m_i between the kept entries, slope_k = m_{k+1} − m_k at entry k, −m_last at the last.
 * Units: tolerance m; result as in `Hinges`. Range: r² ascending from 0, depths not negative, the last one 0.
 * Errors: InvalidInput for another table. Source: own; thinning by Douglas and Peucker, Cartographica 10 (1973) 112.
 */
export function hingesOf(profile: DepthProfile, tolerance: Metre): Hinges {
  const { r2, depth } = profile;
  const last = r2.length - 1;
  requireNonNegative("tolerance", tolerance, "m");
  if (r2.length !== depth.length || r2[0] !== 0) invalid("depth profile", r2.length, "entries", "must start at r² = 0");
  for (let i = 0; i <= last; i++) {
    if (i > 0 && !(r2[i]! > r2[i - 1]!)) invalid("depth profile", r2[i], "m2", "r² must ascend");
    requireNonNegative("depth", depth[i], "m");
  }
  if (depth[last] !== 0) invalid("depth profile", depth[last], "m", "must end at no depth");
  if (last === 0) return { pairs: Float64Array.of(0, 0), reach: 0, error: 0 };
  const entries: number[] = [0];
  const error = kept(profile, 0, last, tolerance, entries);
  entries.push(last);
  const pairs: number[] = [];
  let slopeAfter = 0;
  for (let k = entries.length - 1; k > 0; k--) {
    const [from, to] = [entries[k - 1]!, entries[k]!];
    const slope = (depth[to]! - depth[from]!) / (r2[to]! - r2[from]!);
    if (slope !== slopeAfter) pairs.push(r2[to]!, slopeAfter - slope);
    slopeAfter = slope;
  }
  return { pairs: Float64Array.from(pairs), reach: Math.sqrt(r2[last]!), error };
}
