import { normalPdf, normalQuantile } from "#numerics";
import type { CandidatePool, PatchScore, PlanCandidate } from "./candidates.ts";
import { chooseFarthest } from "./choose-settings.ts";
import { type ModelAtHand, dOptimal } from "./d-optimal.ts";
import type { Factor } from "./factors.ts";
import type { PlanInput } from "./plan-input.ts";
import { type RegressorModel, regressorCount, regressorRow } from "./regressors.ts";

/** Precision known of a coefficient in coded units beforehand: a standard deviation of 3 (own choice). */
const PRIOR = 1 / 9;

/**
 * Information in one yes or no of chance p, about its probit: φ(η)²/(p·(1 − p)), η = Φ⁻¹(p); 0.637 at one half.
 * Chance 0 to 1, held 1e-4 off its ends. Throws nothing. Source: Fisher information of a probit model.
 */
export function probitWeight(chance: number): number {
  const p = Math.min(1 - 1e-4, Math.max(1e-4, chance));
  return normalPdf(normalQuantile(p)) ** 2 / (p * (1 - p));
}

/**
 * Chooses from the pool the settings that tell most of the model at hand, beside those chosen already: the caller's
 * rows, else probit models of clean and undamaged at the predicted chances, else one with equal weights.
 */
export function chooseDOptimal(
  input: PlanInput,
  pool: CandidatePool,
  factors: readonly Factor[],
  already: readonly PlanCandidate[],
  count: number,
): { readonly chosen: readonly PlanCandidate[]; readonly notes: readonly string[] } {
  const { candidates } = pool;
  const total = Math.min(already.length + count, candidates.length);
  const effects = effectModel(factors.length, total);
  const models = modelsOf(input, candidates, effects);
  const fixed = already.map((candidate) => candidates.indexOf(candidate));
  const of = (count_: number, fixed_: readonly number[]) =>
    dOptimal({ models, count: count_, seed: input.seed, starts: 3, priorPrecision: PRIOR, fixed: fixed_ });
  const design = of(total, fixed);
  const spread = [...already, ...chooseFarthest(candidates, already, count)].map((c) => candidates.indexOf(c));
  const coefficients = models.reduce((sum, model) => sum + model.rows[0]!.length, 0);
  const gain = Math.exp((design.logDeterminant - of(total, spread).logDeterminant) / coefficients);
  const question =
    input.model !== undefined
      ? "the model handed in"
      : input.score !== undefined
        ? `${effects} probit models of clean and undamaged at the predicted chances`
        : `a ${effects} model with equal weights`;
  return {
    chosen: design.chosen.slice(already.length).map((index) => candidates[index]!),
    notes: [
      `Chosen by exchange from ${candidates.length} settings for ${question}, ${coefficients} coefficients: ${gain.toFixed(2)} times the information per coefficient of as many settings spread evenly.`,
    ],
  };
}

/** The richest effect model that the runs determine with a third to spare. */
function effectModel(factors: number, runs: number): RegressorModel {
  const fits = (model: RegressorModel) => runs >= 1.3 * regressorCount(model, factors);
  return fits("quadratic") ? "quadratic" : fits("interactions") ? "interactions" : "linear";
}

function modelsOf(input: PlanInput, candidates: readonly PlanCandidate[], effects: RegressorModel): ModelAtHand[] {
  if (input.model !== undefined) {
    const told = candidates.map((candidate) => input.model!(candidate.setting));
    return told[0]!.map((_, question) => ({
      rows: told.map((answer) => answer[question]?.row ?? []),
      weights: told.map((answer) => answer[question]?.weight ?? 0),
    }));
  }
  const rows = candidates.map(({ point }) =>
    regressorRow(
      effects,
      point.map((t) => 2 * t - 1),
    ),
  );
  if (input.score === undefined) return [{ rows, weights: rows.map(() => 1) }];
  const weights = (chance: (score: PatchScore) => number) => candidates.map((c) => probitWeight(chance(c.score!)));
  return [
    { rows, weights: weights((score) => score.clean) },
    { rows, weights: weights((score) => score.undamaged) },
  ];
}
