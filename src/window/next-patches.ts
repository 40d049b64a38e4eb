import type { NextPatch, Setting, WindowObservation } from "#terms";
import { requireInteger, requireShare } from "#units";
import type { Candidate, Drift } from "./robust.ts";
import { expectedImprovement, type RateTable, rateTable, screenCandidates } from "./improvement.ts";
import { meanProbabilities, type WindowDraws } from "./predict-window.ts";
import { isProven, repeatsOf, sameSetting } from "./same-setting.ts";
import { perHundred } from "./words.ts";

export interface NextInput {
  readonly fit: WindowDraws;
  readonly candidates: readonly Candidate[];
  readonly observations: readonly WindowObservation[];
  /** patches wanted */
  readonly n: number;
  readonly confidence: number;
  readonly drift?: Drift;
  /** the present choice (`recommend`), or null */
  readonly choice: { readonly setting: Setting; readonly areaRate: number } | null;
  /** expected gain in rate below which the choice is repeated; 0.3 (own choice) */
  readonly littleGain?: number;
}

/** A batch with what is left to gain, as a share of the present choice's rate; null without a choice. */
export interface NextBatch {
  readonly patches: readonly NextPatch[];
  readonly expectedGain: number | null;
}

/**
 * The next batch by expected improvement of the robust rate over posterior draws, taken one by one so that each
 * patch earns only what the batch does not have yet. Burned settings are left out; when the expected gain is
 * little and the choice is not proven, the choice itself is repeated first. Without any improvement in sight the
 * likeliest settings are taken, apart from each other. n distinct settings, fewer when the candidates run out.
 * `n` count, `confidence` 0 to 1. Throws InvalidInput on values out of range.
 * Source: statistics of sequential trials, own rule (batch expected improvement by greedy choice).
 */
export function nextBatch(input: NextInput): NextBatch {
  const { fit, observations, choice, confidence } = input;
  requireInteger("n", input.n, 0, 1000);
  requireShare("confidence", confidence);
  const fresh = input.candidates.filter((c) => !observations.some((o) => sameSetting(o.setting, c.setting)));
  const table = rateTable(fit, screenCandidates(fit, fresh), input.drift, confidence);
  const best = choiceRates(input, table.draws);
  const expectedGain = gainOver(table, best, choice);
  const patches: NextPatch[] = [];
  const chosen = new Set<number>();
  if (choice !== null && expectedGain !== null && expectedGain <= (input.littleGain ?? 0.3) && input.n > 0) {
    const repeat = repeatPatch(input, expectedGain);
    if (repeat !== null) {
      patches.push(repeat);
      // The choice may stand among the fresh candidates when it was never burned; once is enough.
      table.candidates.forEach((c, i) => {
        if (sameSetting(c.setting, choice.setting)) chosen.add(i);
      });
    }
  }
  while (patches.length < input.n && chosen.size < table.candidates.length) {
    const pick = pickNext(input, table, best, chosen);
    if (pick === null) break;
    chosen.add(pick.index);
    raise(best, table.rates[pick.index]!);
    patches.push(pick.patch);
  }
  return { patches, expectedGain };
}

/** The patches alone of `nextBatch`. */
export function nextPatches(input: NextInput): readonly NextPatch[] {
  return nextBatch(input).patches;
}

/** Rate of the present choice in each draw; 0 everywhere without one. */
function choiceRates(input: NextInput, draws: number): Float64Array {
  const { choice } = input;
  const known = choice && input.candidates.find((c) => sameSetting(c.setting, choice.setting));
  if (!known) return new Float64Array(draws);
  return Float64Array.from(rateTable(input.fit, [known], input.drift, input.confidence).rates[0]!);
}

function gainOver(table: RateTable, best: Float64Array, choice: NextInput["choice"]): number | null {
  if (choice === null || !(choice.areaRate > 0)) return null;
  const top = Float64Array.from(best);
  for (const rate of table.rates) raise(top, rate);
  return expectedImprovement(top, best) / choice.areaRate;
}

/** Lifts each draw's best rate to what one more candidate gives there. */
function raise(best: Float64Array, rate: Float64Array): void {
  for (let s = 0; s < best.length; s++) best[s] = Math.max(best[s]!, rate[s]!);
}

function repeatPatch(input: NextInput, gain: number): NextPatch | null {
  const choice = input.choice!;
  const known = input.candidates.find((c) => sameSetting(c.setting, choice.setting));
  const repeats = repeatsOf(choice.setting, input.observations);
  if (known === undefined || isProven(repeats)) return null;
  const p = meanProbabilities(input.fit, known.features);
  const left = `a faster setting may exist (expected gain ${Math.round(100 * gain)} %), but proof is now worth more`;
  const reason =
    repeats.burned === 0
      ? `Burn the present choice itself: ${left}.`
      : `Repeat the present choice, good ${repeats.good} of ${repeats.burned} so far: ${left}.`;
  return { setting: known.setting, probabilityClean: p.clean, probabilityUndamaged: p.undamaged, reason };
}

function pickNext(
  input: NextInput,
  table: RateTable,
  best: Float64Array,
  chosen: ReadonlySet<number>,
): { readonly index: number; readonly patch: NextPatch } | null {
  let index = -1;
  let value = 0;
  table.rates.forEach((rate, i) => {
    if (chosen.has(i)) return;
    const gain = expectedImprovement(rate, best);
    if (gain > value) {
      value = gain;
      index = i;
    }
  });
  const improves = index >= 0;
  if (!improves) index = likeliestApart(input.fit, table.candidates, chosen);
  if (index < 0) return null;
  const { setting, features, areaRate } = table.candidates[index]!;
  const p = meanProbabilities(input.fit, features);
  let reason: string;
  if (!improves) {
    reason = `Likeliest untried setting away from the others, clean and undamaged on ${perHundred(p.both)} patches.`;
  } else {
    const better = table.rates[index]!.filter((rate, s) => rate > best[s]!).length / table.draws;
    const faster = input.choice && areaRate / input.choice.areaRate - 1;
    const pace =
      faster === null || Math.abs(faster) < 0.005
        ? "the first good one"
        : faster > 0
          ? `good and ${Math.round(100 * faster)} % faster than the present choice`
          : "the good one that the present choice is not";
    reason = `In ${perHundred(better)} versions that fit the outcomes this setting is ${pace}.`;
  }
  return { index, patch: { setting, probabilityClean: p.clean, probabilityUndamaged: p.undamaged, reason } };
}

/** Highest P(both) less nearness to what the batch already has, so that a batch does not sit on one spot. */
function likeliestApart(fit: WindowDraws, candidates: readonly Candidate[], chosen: ReadonlySet<number>): number {
  let index = -1;
  let value = Number.NEGATIVE_INFINITY;
  candidates.forEach((candidate, i) => {
    if (chosen.has(i)) return;
    let nearness = 0;
    for (const j of chosen) nearness = Math.max(nearness, Math.exp(-distance(candidate, candidates[j]!)));
    const worth = meanProbabilities(fit, candidate.features, Math.min(200, fit.draws)).both * (1 - nearness);
    if (worth > value) {
      value = worth;
      index = i;
    }
  });
  return index;
}

/** Distance in doublings over the physical groups. */
function distance(a: Candidate, b: Candidate): number {
  const { features: f } = a;
  const { features: g } = b;
  return (
    Math.hypot(f.logDose - g.logDose, f.logOverlap - g.logOverlap, f.logPasses - g.logPasses, f.logTime - g.logTime) /
    Math.LN2
  );
}
