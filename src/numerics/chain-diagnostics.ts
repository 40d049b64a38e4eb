import { mean, variance } from "./descriptive.ts";
import { demand } from "./numerical-error.ts";

type Chain = ArrayLike<number>;

/** Both halves of every chain; the middle draw of an odd chain is left out. */
function halves(chains: readonly Chain[]): Float64Array[] {
  demand(chains.length > 0, "chain diagnostics: needs at least one chain");
  const length = chains[0]!.length;
  demand(length >= 4, "chain diagnostics: needs at least four draws per chain");
  const half = Math.floor(length / 2);
  return chains.flatMap((chain) => {
    demand(chain.length === length, "chain diagnostics: chains of unequal length");
    const draws = Float64Array.from(chain);
    return [draws.slice(0, half), draws.slice(length - half)];
  });
}

/** Mean within-chain variance W and the pooled estimate (n − 1)/n·W + B/n. */
function variances(chains: readonly Float64Array[]): { within: number; pooled: number } {
  const n = chains[0]!.length;
  const within = mean(chains.map(variance));
  const between = chains.length > 1 ? variance(chains.map(mean)) : 0;
  return { within, pooled: ((n - 1) / n) * within + between };
}

/**
 * Split R̂ of one parameter (1): √(pooled/within variance) over both halves of every chain; near 1 when they agree.
 * Chains of equal length, at least 4 draws. Constant equal chains give 1, constant unequal ones Infinity.
 * Source: gelman-bda3, 11.4.
 * @throws NumericalError for missing, short or unequal chains
 */
export function splitRHat(chains: readonly Chain[]): number {
  const { within, pooled } = variances(halves(chains));
  if (within === 0) return pooled === 0 ? 1 : Infinity;
  return Math.sqrt(pooled / within);
}

/**
 * Effective number of independent draws (1) behind the mean of one parameter, over both halves of every chain, with
 * Geyer's initial monotone sequence of pair sums. At most draws·log10(draws), for antithetic chains.
 * Sources: gelman-bda3, 11.5; geyer-1992; vehtari-2021.
 * @throws NumericalError for missing, short or unequal chains
 */
export function effectiveSampleSize(chains: readonly Chain[]): number {
  const parts = halves(chains);
  const n = parts[0]!.length;
  const total = n * parts.length;
  const { within, pooled } = variances(parts);
  if (pooled === 0) return total;
  const centred = parts.map((part) => {
    const centre = mean(part);
    return part.map((draw) => draw - centre);
  });
  const correlation = (lag: number): number => {
    let sum = 0;
    for (const part of centred) {
      for (let i = 0; i + lag < n; i += 1) sum += part[i]! * part[i + lag]!;
    }
    return 1 - (within - sum / ((n - 1) * parts.length)) / pooled;
  };
  let time = -1;
  let least = Infinity;
  for (let lag = 0; lag + 1 < n; lag += 2) {
    const pair = (lag === 0 ? 1 : correlation(lag)) + correlation(lag + 1);
    if (pair <= 0) break;
    least = Math.min(least, pair);
    time += 2 * least;
  }
  return Math.min(total / Math.max(time, 1 / Math.log10(Math.max(total, 10))), total * Math.log10(total));
}
