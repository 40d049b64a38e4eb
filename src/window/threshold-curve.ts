import { chiSquareQuantile, findRoot, minimise1d, normalLogCdf, normalQuantile } from "#numerics";
import { invalid, requireFinite } from "#units";
import { fitCloglog, fitLogit, fitProbit } from "./binary-regression.ts";
import type { LatentDraw } from "./link-sensitivity.ts";

/** One site of a go/no-go test: level and whether it was damaged. */
export interface TestedSite {
  readonly level: number;
  readonly damaged: boolean;
}

/** Likelihood-ratio interval; null where the likelihood never falls far enough on that side. */
export interface ProfileRange {
  readonly value: number;
  readonly low: number | null;
  readonly high: number | null;
}

export interface ThresholdCurve {
  /** level at which half of the sites are damaged, and the spread of the probit, in the unit of the level */
  readonly middle: ProfileRange;
  readonly spread: ProfileRange;
  /** level at which `share` of the sites are damaged */
  quantile(share: number): ProfileRange;
  /** mean and standard error, in probits, of how far a level lies on the undamaged side */
  latentAt(level: number): LatentDraw;
  /** deviances by three links: how well the sites tell them apart */
  readonly deviance: { readonly probit: number; readonly logit: number; readonly cloglog: number };
}

export interface SplitSites {
  /** no overlap: highest level without and lowest with damage */
  readonly between: readonly [number, number];
  /** middle and spread by Firth's reduction of bias; null where even that has no slope */
  readonly firth: { readonly middle: number; readonly spread: number } | null;
}

/**
 * Damage against level from go/no-go sites: P = Φ((x − μ)/σ) by maximum likelihood, with 95 % intervals by the
 * likelihood ratio, 2(ℓ_max − ℓ_profile) ≤ 3.841, for μ, σ and any level of damage μ + z·σ.
 * Where the outcomes split cleanly no σ exists: the levels between which μ lies come back instead, with Firth's fit.
 * @param sites at least 4, levels in any one unit (or their logarithms)
 * @returns levels in that unit
 * Valid: sites independent, damage growing with level. A level of 1 % is far outside what some tens of sites show.
 * Throws InvalidInput for fewer sites, one outcome only, one level only, and damage that falls with level.
 * Sources: McCullagh and Nelder (1989), 4.4; mil-hdbk-1823a for the intervals; Firth (1993).
 */
export function thresholdCurve(sites: readonly TestedSite[]): ThresholdCurve | SplitSites {
  if (sites.length < 4) invalid("sites", sites.length, "", "a threshold needs 4 or more");
  for (const site of sites) requireFinite("level", site.level);
  const damaged = sites.filter((s) => s.damaged).map((s) => s.level);
  const whole = sites.filter((s) => !s.damaged).map((s) => s.level);
  if (damaged.length === 0 || whole.length === 0)
    invalid("sites", damaged.length === 0 ? "none damaged" : "all damaged", "", "a threshold needs both outcomes");
  const low = Math.min(...damaged, ...whole);
  const width = Math.max(...damaged, ...whole) - low;
  if (width === 0) invalid("level", low, "", "must not be the same throughout");
  const centre = low + width / 2;
  // Levels within −1 to 1 keep every fit well conditioned.
  const scaled = sites.map((s) => ({ x: (2 * (s.level - centre)) / width, damaged: s.damaged }));
  const data = { rows: scaled.map((s) => [1, s.x]), successes: scaled.map((s) => (s.damaged ? 1 : 0)) };
  const back = (x: number): number => centre + (x * width) / 2;
  const probit = fitProbit(data);
  if (probit.separated || Math.max(...whole) <= Math.min(...damaged)) {
    if (Math.max(...whole) > Math.min(...damaged)) falls();
    const [a, b] = fitProbit(data, true).coefficients as [number, number];
    return {
      between: [Math.max(...whole), Math.min(...damaged)],
      firth: b > 0 ? { middle: back(-a / b), spread: width / (2 * b) } : null,
    };
  }
  const [a, b] = probit.coefficients as [number, number];
  if (!(b > 0)) falls();
  const profile = profileOf(scaled, -a / b, 1 / b);
  const levelOf = (range: ProfileRange): ProfileRange => ({
    value: back(range.value),
    low: range.low === null ? null : back(range.low),
    high: range.high === null ? null : back(range.high),
  });
  const spread = profile.spread();
  const times = (x: number | null): number | null => (x === null ? null : (x * width) / 2);
  return {
    middle: levelOf(profile.quantile(0)),
    spread: { value: times(spread.value)!, low: times(spread.low), high: times(spread.high) },
    quantile: (share) => {
      if (!(share > 0 && share < 1)) invalid("share damaged", share, "", "must be between 0 and 1");
      return levelOf(profile.quantile(normalQuantile(share)));
    },
    latentAt: (level) => {
      const x = (2 * (level - centre)) / width;
      const [[vA, vAB], [, vB]] = probit.covariance as [[number, number], [number, number]];
      return { mean: -(a + b * x), deviation: Math.sqrt(Math.max(0, vA + 2 * x * vAB + x * x * vB)) };
    },
    deviance: { probit: probit.deviance, logit: fitLogit(data).deviance, cloglog: fitCloglog(data).deviance },
  };
}

function falls(): never {
  return invalid("sites", "less damage at higher levels", "", "damage must grow with the level");
}

/** Profiles of the likelihood about its top at μ, σ; x within −1 to 1. */
function profileOf(sites: readonly { readonly x: number; readonly damaged: boolean }[], mu: number, sigma: number) {
  const logLikelihood = (middle: number, spread: number): number => {
    let sum = 0;
    for (const { x, damaged } of sites) sum += normalLogCdf(((damaged ? 1 : -1) * (x - middle)) / spread);
    return sum;
  };
  const top = logLikelihood(mu, sigma);
  const drop = chiSquareQuantile(0.95, 1) / 2;
  /** Ends of where `profile` stays within `drop` of the top, walking out from `at` in growing steps. */
  const range = (at: number, step: number, profile: (x: number) => number, least: number): ProfileRange => {
    const excess = (x: number): number => top - profile(x) - drop;
    const end = (direction: 1 | -1): number | null => {
      let inside = at;
      for (let reach = step, k = 0; k < 24; k++, reach *= 1.6) {
        const outside = Math.max(least, at + direction * reach);
        if (excess(outside) > 0) return findRoot(excess, inside, outside, { tolerance: 1e-10 });
        if (outside === least) return null;
        inside = outside;
      }
      return null;
    };
    return { value: at, low: end(-1), high: end(1) };
  };
  return {
    quantile: (z: number) => {
      const best = (q: number): number =>
        -minimise1d(
          (logSpread) => {
            const spread = Math.exp(logSpread);
            return -logLikelihood(q - z * spread, spread);
          },
          Math.log(sigma) - 7,
          Math.log(sigma) + 7,
        ).value;
      return range(mu + z * sigma, sigma / 4, best, Number.NEGATIVE_INFINITY);
    },
    spread: () => {
      const best = (spread: number): number =>
        -minimise1d((middle) => -logLikelihood(middle, spread), -3 - 5 * spread, 3 + 5 * spread).value;
      return range(sigma, sigma / 4, best, sigma / 1000);
    },
  };
}
