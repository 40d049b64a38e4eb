import { normalCdf } from "#numerics";

/** A link of a binary regression: the mean of a score and its first two derivatives. */
export interface Link {
  readonly mean: (score: number) => number;
  /** 1 − mean, without cancellation */
  readonly complement: (score: number) => number;
  /** dμ/dη */
  readonly slope: (score: number) => number;
  /** d²μ/dη² over dμ/dη */
  readonly bend: (score: number) => number;
}

const density = (z: number): number => Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);

/**
 * logit: μ = 1/(1 + e^−η); probit: μ = Φ(η); cloglog: μ = 1 − exp(−e^η). η and μ dimensionless, any finite η.
 * Throws nothing. Source: McCullagh and Nelder, Generalized Linear Models, 2nd edition (1989), chapter 4.
 */
export const links: Readonly<Record<"logit" | "probit" | "cloglog", Link>> = {
  logit: {
    mean: (z) => 1 / (1 + Math.exp(-z)),
    complement: (z) => 1 / (1 + Math.exp(z)),
    slope: (z) => 1 / ((1 + Math.exp(-z)) * (1 + Math.exp(z))),
    bend: (z) => 1 - 2 / (1 + Math.exp(-z)),
  },
  probit: {
    mean: (z) => normalCdf(z),
    complement: (z) => normalCdf(-z),
    slope: density,
    bend: (z) => -z,
  },
  cloglog: {
    mean: (z) => -Math.expm1(-Math.exp(z)),
    complement: (z) => Math.exp(-Math.exp(z)),
    slope: (z) => Math.exp(z - Math.exp(z)),
    bend: (z) => 1 - Math.exp(z),
  },
};
