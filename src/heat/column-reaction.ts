/**
 * First-order Arrhenius decomposition over one stage, integrated exactly for a rate constant whose logarithm runs
 * straight in time: X₁ = 1 − (1 − X₀)·exp(−K), K = Δt·k̄, k̄ the logarithmic mean of k(T₀) and k(T₁).
 * It stays within 0..1 at any step, however fast the reaction.
 */

/** Rate constants times the stage below this are nothing: less than 1e-12 of a layer. */
const negligible = -27.6;

/** (e^u − 1)/u, without loss near u = 0. */
function growth(u: number): number {
  return Math.abs(u) < 1e-4 ? 1 + u / 2 + (u * u) / 6 : Math.expm1(u) / u;
}

/**
 * ln k(T) = ln A − (E/R)/T. logRate: ln(1/s); activation: E/R in K; temperature: K, taken as 1 K below 1 K (a Newton
 * iterate may stray there). Result: ln(1/s). Source: Arrhenius.
 */
export function logRateConstant(logRate: number, activation: number, temperature: number): number {
  return logRate - activation / (temperature > 1 ? temperature : 1);
}

/**
 * K = Δt·(k₁ − k₀)/ln(k₁/k₀) for a stage of Δt s from ln k₀ to ln k₁. Result: 1. Source: own.
 */
export function reactionAdvance(logBefore: number, logAfter: number, duration: number): number {
  if ((logBefore > logAfter ? logBefore : logAfter) + Math.log(duration) < negligible) return 0;
  // Growing from the smaller constant overflows for cold cells; from the larger one it cannot.
  return logAfter > logBefore
    ? duration * Math.exp(logAfter) * growth(logBefore - logAfter)
    : duration * Math.exp(logBefore) * growth(logAfter - logBefore);
}

/** Decomposition of all cells over one stage. */
export interface StageReaction {
  /** ln A (ln(1/s)), E/R (K), heat (J/m³) of each layer cell */
  readonly logRate: Float64Array;
  readonly activation: Float64Array;
  readonly heat: Float64Array;
  /** ln of the rate constant at the start of the stage, ln(1/s) */
  readonly logBefore: Float64Array;
  /** conversion at the start and the end of the stage, and its slope dX/dT₁ (1/K) */
  readonly before: Float64Array;
  readonly after: Float64Array;
  readonly slope: Float64Array;
  /** s, and the ln of a rate constant that does nothing in it */
  duration: number;
  logLimit: number;
}

/** Sets the length of the stage, s. */
export function setStage(reaction: StageReaction, duration: number): void {
  reaction.duration = duration;
  reaction.logLimit = negligible - Math.log(duration);
}

/**
 * Conversion X₁ of cell i at the end of a stage and dX₁/dT₁ (1/K) by the temperature there, K: `reactionAdvance` K and
 * its slope dK/dT₁ = dK/d(ln k₁)·(E/R)/T₁² in one, with their exponentials shared. Source: own.
 */
export function reactInStage(reaction: StageReaction, i: number, temperature: number): void {
  const { activation, logBefore, before, logLimit, duration } = reaction;
  const left = 1 - before[i];
  const t = temperature > 1 ? temperature : 1;
  const inverse = 1 / t;
  const logAfter = reaction.logRate[i] - activation[i] * inverse;
  const start = logBefore[i];
  if ((logAfter < logLimit && start < logLimit) || left <= 0) {
    reaction.after[i] = before[i];
    reaction.slope[i] = 0;
    return;
  }
  const growing = logAfter > start;
  const u = growing ? start - logAfter : logAfter - start;
  const e = Math.exp(u);
  const mean = u > -1e-3 ? 1 + u / 2 + (u * u) / 6 : (e - 1) / u;
  const bend = u > -1e-2 ? 0.5 + u / 3 + (u * u) / 8 + (u * u * u) / 30 : (e * (u - 1) + 1) / (u * u);
  const constant = duration * Math.exp(growing ? logAfter : start);
  const survived = left * Math.exp(-constant * mean);
  reaction.after[i] = 1 - survived;
  reaction.slope[i] = survived * constant * (growing ? mean - bend : bend) * activation[i] * inverse * inverse;
}
