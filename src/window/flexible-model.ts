import { invalid, requireFinite } from "#units";
import { type ProbitPosterior, probitPosterior, probitShare } from "./expectation-propagation.ts";
import { covariance, type FlexibleScales, usualGrid } from "./flexible-kernel.ts";

export interface FlexibleOptions {
  /** scales to average over, with prior weights (any positive sum); the usual grid when left out */
  readonly grid?: readonly { readonly scales: FlexibleScales; readonly weight: number }[];
}

export interface FlexiblePrediction {
  /** P(yes) */
  readonly p: number;
  /** mean and variance of the latent in probits, over scales and data */
  readonly mean: number;
  readonly variance: number;
}

export interface FlexibleFit {
  /** ln of the probability of all outcomes, averaged over the grid */
  readonly logEvidence: number;
  /** P(yes) of each patch from all the others */
  readonly leaveOneOut: readonly number[];
  predict(row: readonly number[]): FlexiblePrediction;
}

/**
 * A model that knows no physics: Gaussian process on a straight line plus a small bump, seen through a probit, by
 * expectation propagation; scales averaged over a fixed grid by their evidence, never fitted.
 * @param rows one per patch, each column standardised to mean 0 and deviation 1 (1), 200 rows at most
 * @param seen outcome of each row
 * @returns evidence, leave-one-out chances (each grid point weighted by the evidence of the other patches) and predictions
 * Valid: as a check on another model; as a window of its own it needs three times the patches.
 * Throws InvalidInput for no rows, rows of unequal length, values not finite, more than 200 rows.
 * Source: Rasmussen and Williams (2006), 3.6, 5.4.2.
 */
export function fitFlexible(
  rows: readonly (readonly number[])[],
  seen: readonly boolean[],
  options: FlexibleOptions = {},
): FlexibleFit {
  const n = rows.length;
  if (n === 0 || n > 200) invalid("rows", n, "", "must be 1 to 200");
  if (seen.length !== n) invalid("outcomes", seen.length, "", "one per row");
  const width = rows[0]!.length;
  for (const row of rows) {
    if (row.length !== width) invalid("row", row.length, "columns", `must be ${width}`);
    for (const value of row) requireFinite("value of a row", value);
  }
  const grid = options.grid ?? usualGrid;
  let sites: ProbitPosterior["sites"] | undefined;
  const fits = grid.map(({ scales, weight }) => {
    const k = new Float64Array(n * n);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j <= i; j++) k[i * n + j] = k[j * n + i] = covariance(rows[i]!, rows[j]!, scales);
    }
    const posterior = probitPosterior(k, seen, sites);
    sites = posterior.sites;
    return { scales, posterior, prior: Math.log(weight) };
  });
  const priorSum = logSum(fits.map((f) => f.prior));
  const logWeights = fits.map((f) => f.prior - priorSum + f.posterior.logEvidence);
  const logEvidence = logSum(logWeights);
  const weights = logWeights.map((w) => Math.exp(w - logEvidence));
  // A grid point weighs by what it says of the others: its evidence over its chance for the patch left out.
  const leaveOneOut = rows.map((_, i) => {
    const others = fits.map((f, g) => logWeights[g]! - f.posterior.leaveOneOut[i]!);
    const chance = Math.exp(logEvidence - logSum(others));
    return seen[i] ? chance : 1 - chance;
  });
  return {
    logEvidence,
    leaveOneOut,
    predict: (row) => {
      if (row.length !== width) invalid("row", row.length, "columns", `must be ${width}`);
      let p = 0;
      let mean = 0;
      let square = 0;
      fits.forEach(({ scales, posterior }, g) => {
        const latent = posterior.latent(
          Float64Array.from(rows, (other) => covariance(row, other, scales)),
          covariance(row, row, scales),
        );
        p += weights[g]! * probitShare(latent.mean, latent.variance);
        mean += weights[g]! * latent.mean;
        square += weights[g]! * (latent.variance + latent.mean ** 2);
      });
      return { p, mean, variance: square - mean ** 2 };
    },
  };
}

function logSum(values: readonly number[]): number {
  const most = Math.max(...values);
  return most + Math.log(values.reduce((sum, v) => sum + Math.exp(v - most), 0));
}
