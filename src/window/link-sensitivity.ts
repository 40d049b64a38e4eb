import { gaussLegendre, normalCdf, normalPdf, normalQuantile } from "#numerics";
import { formatNumber, invalid, requireFinite, requireInRange, requireNonNegative } from "#units";
import { links } from "./links.ts";

/** Latent of one draw on the probit scale: P(good) = Φ(z), z normal about the mean. */
export interface LatentDraw {
  readonly mean: number;
  readonly deviation: number;
}

export interface LinkSensitivity {
  /** chance of failure averaged over the draws, by three links that agree at the median and in slope there */
  readonly probit: number;
  /** failures thin out slowly (complementary log-log of success) */
  readonly slowTail: number;
  /** failures thin out fast (log-log of success) */
  readonly fastTail: number;
  /** probits beyond the median at which `tail` fails, by the same links */
  readonly margins: { readonly probit: number; readonly slowTail: number; readonly fastTail: number };
  readonly tail: number;
  readonly words: string;
}

/** Score of the complementary log-log at probit z, matched at z = 0 in value and slope. */
const medianScore = Math.log(Math.LN2);
const slopeRatio = normalPdf(0) / (Math.LN2 / 2);

/** P(failure) at z probits beyond the median of success, by the three links. */
function failures(z: number): readonly [number, number, number] {
  const cloglog = links.cloglog;
  return [
    normalCdf(-z),
    cloglog.complement(medianScore + slopeRatio * z),
    cloglog.mean(medianScore - slopeRatio * z),
  ] as const;
}

/**
 * How far the chance of failure hangs on the link. Success by probit Φ(z), by complementary log-log
 * 1 − exp(−ln 2·e^(kz)) and by its mirror image exp(−ln 2·e^(−kz)), k = φ(0)/(½·ln 2) = 1.151, all with the same
 * median and slope: among patches near the edge nobody can tell them apart, at 1 % they differ.
 * @param draws mean and deviation of z (1), one for each version of the physics
 * @param tail share of failures (1) whose margin is compared, 0.0001 to 0.4
 * @returns chances (1), margins in probits, one sentence
 * Throws InvalidInput for no draws, values not finite, deviations below 0.
 * Source: McCullagh and Nelder, Generalized Linear Models (1989), 4.3; matching: own derivation.
 */
export function linkSensitivity(draws: readonly LatentDraw[], tail = 0.01): LinkSensitivity {
  if (draws.length === 0) invalid("draws", 0, "", "at least one");
  requireInRange("tail", tail, "", 0.0001, 0.4);
  const { nodes, weights } = gaussLegendre(40);
  const average = [0, 0, 0];
  for (const { mean, deviation } of draws) {
    requireFinite("mean of a latent", mean);
    requireNonNegative("deviation of a latent", deviation);
    // ±8 deviations hold all of the normal distribution that counts.
    for (let i = 0; i < nodes.length; i++) {
      const u = 8 * nodes[i]!;
      const share = (8 * weights[i]! * normalPdf(u)) / draws.length;
      failures(mean + deviation * u).forEach((p, k) => {
        average[k]! += share * p;
      });
    }
  }
  const [probit, fastTail, slowTail] = average as [number, number, number];
  const margins = {
    probit: -normalQuantile(tail),
    fastTail: (Math.log(-Math.log(tail)) - medianScore) / slopeRatio,
    slowTail: (medianScore - Math.log(-Math.log1p(-tail))) / slopeRatio,
  };
  const percent = (p: number): string => `${formatNumber(100 * p, 2)} %`;
  return {
    probit,
    fastTail,
    slowTail,
    margins,
    tail,
    words: `The chance of failure is ${percent(probit)} by probit and ${percent(fastTail)} to ${percent(slowTail)} by curves that no patch near the edge can tell from it: ${percent(tail)} failures lie ${formatNumber(margins.fastTail, 2)} to ${formatNumber(margins.slowTail, 2)} deviations from the edge, ${formatNumber(margins.probit, 2)} by probit.`,
  };
}
