import { solveLowerTransposed } from "#numerics";
import type { LogDensity } from "./edge-density.ts";

export interface ChainPlan {
  readonly chains: number;
  readonly warmup: number;
  readonly kept: number;
}

/** What the sampler needs of a random stream: any seeded stream will do. */
export interface ChainRandom {
  next(): number;
  normal(): number;
}

export interface Chain {
  /** kept draws, row by row */
  readonly draws: Float64Array;
  /** share of proposals taken after the warm-up */
  readonly acceptance: number;
}

const stepsMax = 24;
const acceptanceGoal = 0.85;

/**
 * One chain of Hamiltonian Monte Carlo in coordinates whitened by the lower Cholesky factor L of the precision at
 * the mode: u = mode + L⁻ᵀ v. Step length by dual averaging during the warm-up, path length jittered around a
 * quarter turn. `density` as in `LogDensity`; all dimensionless. Throws nothing for finite densities.
 * Source: Neal, MCMC using Hamiltonian dynamics, Handbook of Markov Chain Monte Carlo (2011); step length after
 * Hoffman and Gelman, The No-U-Turn Sampler, J. Machine Learning Research 15 (2014), algorithm 5.
 */
export function runChain(
  density: LogDensity,
  mode: Float64Array,
  lower: Float64Array,
  plan: ChainPlan,
  random: ChainRandom,
): Chain {
  const n = mode.length;
  const whitener = transposedInverse(lower, n);
  const u = new Float64Array(n);
  const gradientU = new Float64Array(n);
  const evaluate = (v: Float64Array, gradient: Float64Array): number => {
    for (let i = 0; i < n; i++) {
      let sum = mode[i]!;
      for (let j = i; j < n; j++) sum += whitener[i * n + j]! * v[j]!;
      u[i] = sum;
    }
    const value = density(u, gradientU);
    for (let j = 0; j < n; j++) {
      let sum = 0;
      for (let i = 0; i <= j; i++) sum += whitener[i * n + j]! * gradientU[i]!;
      gradient[j] = sum;
    }
    return value;
  };

  // Starts are spread wider than the posterior so that R-hat can see a chain that has not arrived.
  let v = Float64Array.from({ length: n }, () => 1.5 * random.normal());
  let gradient: Float64Array = new Float64Array(n);
  let value = evaluate(v, gradient);
  const draws = new Float64Array(plan.kept * n);
  let step = 0.4;
  let logStepMean = Math.log(step);
  let errorMean = 0;
  const shrinkTowards = Math.log(1.2);
  let taken = 0;
  let w = new Float64Array(n);
  let gradientW: Float64Array = new Float64Array(n);
  const momentum = new Float64Array(n);

  for (let round = 1; round <= plan.warmup + plan.kept; round++) {
    let energy = value;
    for (let k = 0; k < n; k++) {
      momentum[k] = random.normal();
      energy -= 0.5 * momentum[k]! * momentum[k]!;
      w[k] = v[k]!;
      gradientW[k] = gradient[k]!;
    }
    const path = (Math.PI / 2) * (0.6 + 0.8 * random.next());
    const steps = Math.min(stepsMax, Math.max(1, Math.round(path / step)));
    let valueW = value;
    for (let s = 0; s < steps; s++) {
      for (let k = 0; k < n; k++) {
        momentum[k] = momentum[k]! + 0.5 * step * gradientW[k]!;
        w[k] = w[k]! + step * momentum[k]!;
      }
      valueW = evaluate(w, gradientW);
      for (let k = 0; k < n; k++) momentum[k] = momentum[k]! + 0.5 * step * gradientW[k]!;
    }
    let energyW = valueW;
    for (let k = 0; k < n; k++) energyW -= 0.5 * momentum[k]! * momentum[k]!;
    const difference = energyW - energy;
    const acceptance = Number.isFinite(difference) ? Math.min(1, Math.exp(difference)) : 0;
    if (random.next() < acceptance) {
      [v, w] = [w, v];
      [gradient, gradientW] = [gradientW, gradient];
      value = valueW;
      if (round > plan.warmup) taken++;
    }
    if (round <= plan.warmup) {
      errorMean += (acceptanceGoal - acceptance - errorMean) / (round + 10);
      const logStep = Math.min(0.6, shrinkTowards - (Math.sqrt(round) / 0.05) * errorMean);
      const weight = round ** -0.75;
      logStepMean = weight * logStep + (1 - weight) * logStepMean;
      step = Math.exp(round === plan.warmup ? logStepMean : logStep);
    } else {
      const at = (round - plan.warmup - 1) * n;
      for (let i = 0; i < n; i++) {
        let sum = mode[i]!;
        for (let j = i; j < n; j++) sum += whitener[i * n + j]! * v[j]!;
        draws[at + i] = sum;
      }
    }
  }
  return { draws, acceptance: taken / plan.kept };
}

/** L⁻ᵀ of a lower triangular n × n matrix L: an upper triangle, row by row. */
export function transposedInverse(lower: Float64Array, n: number): Float64Array {
  const out = new Float64Array(n * n);
  const unit = new Float64Array(n);
  for (let j = 0; j < n; j++) {
    unit.fill(0);
    unit[j] = 1;
    const column = solveLowerTransposed(lower, n, unit);
    for (let i = 0; i < n; i++) out[i * n + j] = column[i]!;
  }
  return out;
}
