import { type Chain, runChain, type ChainRandom } from "./chains.ts";
import { type EdgeData, edgeLogDensity } from "./edge-density.ts";
import { findMode, informationAt } from "./edge-mode.ts";
import { coefficientCount, type EdgePrior, writeCoefficients } from "./prior.ts";
import { cholesky, effectiveSampleSize, splitRHat } from "#numerics";

/** Posterior draws of one edge: rows of a, b, c of dose, overlap, passes, time. */
export interface EdgePosterior {
  readonly coefficients: Float64Array;
  readonly draws: number;
  /** graded patches behind it */
  readonly graded: number;
  /** largest split R-hat over the coefficients */
  readonly rHat: number;
  /** smallest effective sample size over the coefficients, of the kept draws before thinning */
  readonly effectiveSampleSize: number;
  /** share of proposals taken, mean over the chains */
  readonly acceptance: number;
}

export interface EdgeSampling {
  readonly prior: EdgePrior;
  readonly data: EdgeData;
  readonly lapse: number;
  readonly chains: number;
  readonly draws: number;
  readonly random: { substream(index: number): ChainRandom };
}

const warmup = 200;
/** Every fourth draw is kept, so that 1000 of them are worth nearly 1000 independent ones. */
const thin = 4;

/**
 * Samples one edge with several chains. Draws are taken in turn from each chain, so that any first part of them
 * stands for all chains. Deterministic for a given random stream.
 */
export function sampleEdge(sampling: EdgeSampling): EdgePosterior {
  const { prior, data } = sampling;
  const density = edgeLogDensity(prior, data, sampling.lapse);
  const mode = findMode(density, data, prior);
  const lower = cholesky(informationAt(mode, data, prior), coefficientCount);
  const perChain = Math.ceil(sampling.draws / sampling.chains);
  const kept = perChain * thin;
  const chains: Chain[] = [];
  for (let c = 0; c < sampling.chains; c++) {
    chains.push(
      runChain(density, mode, lower, { chains: sampling.chains, warmup, kept }, sampling.random.substream(c)),
    );
  }
  const n = coefficientCount;
  const values = chains.map((chain) => {
    const out = new Float64Array(kept * n);
    for (let i = 0; i < kept; i++) writeCoefficients(prior, chain.draws.subarray(i * n, (i + 1) * n), out, i * n);
    return out;
  });
  let rHat = 1;
  let ess = Number.POSITIVE_INFINITY;
  for (let k = 0; k < n; k++) {
    const traces = values.map((v) => Float64Array.from({ length: kept }, (_, i) => v[i * n + k]!));
    rHat = Math.max(rHat, splitRHat(traces));
    ess = Math.min(ess, effectiveSampleSize(traces));
  }
  const coefficients = new Float64Array(sampling.draws * n);
  for (let i = 0; i < sampling.draws; i++) {
    const from = Math.floor(i / sampling.chains) * thin * n;
    coefficients.set(values[i % sampling.chains]!.subarray(from, from + n), i * n);
  }
  return {
    coefficients,
    draws: sampling.draws,
    graded: data.seen.length,
    rHat,
    effectiveSampleSize: ess,
    acceptance: chains.reduce((sum, chain) => sum + chain.acceptance, 0) / chains.length,
  };
}
