import type { Setting } from "#terms";
import type { Choice, ChoiceTable } from "./choice-table.ts";
import type { RepeatCount } from "./choose.ts";
import { repeatsToProve } from "./same-setting.ts";

/** Expected gain in rate below which proof of the choice is worth more than looking further (own choice). */
export const LITTLE_GAIN = 0.3;
/** From the first number of patches to the second what counts as little grows to the whole rate: patience has an end. */
const PATIENCE = { from: 20, to: 36 } as const;

/**
 * Expected gain, as a share of the present rate, that no longer justifies more looking after `patches` patches.
 * Equation: 0.3 up to 20 patches, then on a straight line to 1 at 36. Units: 1. Errors: none. Source: own choice.
 */
export function littleGain(patches: number): number {
  const share = (patches - PATIENCE.from) / (PATIENCE.to - PATIENCE.from);
  return LITTLE_GAIN + (1 - LITTLE_GAIN) * Math.max(0, Math.min(1, share));
}

export interface Batch {
  /** settings to burn, the most promising first; a setting may come twice where it is to be repeated */
  readonly picks: readonly BatchPick[];
  /** expected gain over the present choice as a share of its rate; null without a choice */
  readonly gain: number | null;
}

export interface BatchPick {
  readonly choice: Choice;
  readonly why: "repeat" | "faster" | "first" | "likely";
  /** share of versions of the truth in which it beats what there is */
  readonly share: number;
}

export interface BatchInput {
  readonly table: ChoiceTable;
  readonly n: number;
  readonly choice: Choice | null;
  readonly repeats: RepeatCount;
  /** patches graded so far */
  readonly patches: number;
  /** patches burned so far with any setting: those settings are not burned again but for proof */
  readonly burned: (setting: Setting) => boolean;
}

/**
 * The next patches by expected improvement of the robust rate, one by one, so that each earns what the batch does not have
 * yet; the choice itself first when little is left to gain and it is short of repeats.
 *
 * Equation: EI(c) = mean_s max(0, rate·meets_s − best_s), best_s the best rate in version s of choice and batch so far.
 * Units: m²/s. Range: n from 0. Errors: none. Source: Mockus; Jones, Schonlau and Welch, J. Global Optimization 13 (1998),
 * in batches by greedy choice.
 */
export function nextPicks(input: BatchInput): Batch {
  const { table, choice } = input;
  const best = new Float64Array(table.draws);
  if (choice !== null) for (let s = 0; s < table.draws; s++) best[s] = choice.meets[s]! * choice.areaRate;
  const gain = choice === null ? null : gainOver(table, best, choice.areaRate);
  const picks: BatchPick[] = [];
  if (choice !== null && gain !== null && gain <= littleGain(input.patches)) {
    const wanted = repeatsToProve - input.repeats(choice.setting).good;
    for (let k = 0; k < Math.min(wanted, input.n); k++) picks.push({ choice, why: "repeat", share: choice.share });
  } else if (choice !== null && input.n > 1 && input.repeats(choice.setting).good < 1) {
    // A choice that was never burned is proved while others are tried: proof then needs one batch less.
    picks.push({ choice, why: "repeat", share: choice.share });
  }
  const families = new Map<number, number>();
  const fresh = table.choices.filter((c) => !input.burned(c.setting));
  const taken = new Set<Choice>();
  while (picks.length < input.n) {
    const pick = mostImproving(fresh, best, taken) ?? likeliestApart(fresh, taken, families);
    if (pick === null) break;
    taken.add(pick.choice);
    families.set(pick.choice.family, (families.get(pick.choice.family) ?? 0) + 1);
    raise(best, pick.choice);
    picks.push(pick);
  }
  return { picks, gain };
}

/** Settings that the expected gain counts on: what the next few patches could find, not what a perfect search would. */
const GAIN_PICKS = 4;

/** Expected gain of the next few patches over the choice, as a share of its rate: greedy expected improvement. */
function gainOver(table: ChoiceTable, best: Float64Array, rate: number): number {
  const top = Float64Array.from(best);
  const taken = new Set<Choice>();
  for (let k = 0; k < GAIN_PICKS; k++) {
    const pick = mostImproving(table.choices, top, taken);
    if (pick === null) break;
    taken.add(pick.choice);
    raise(top, pick.choice);
  }
  let sum = 0;
  for (let s = 0; s < top.length; s++) sum += top[s]! - best[s]!;
  return sum / top.length / rate;
}

function raise(best: Float64Array, choice: Choice): void {
  for (let s = 0; s < best.length; s++) {
    const rate = choice.meets[s]! * choice.areaRate;
    if (rate > best[s]!) best[s] = rate;
  }
}

/** Share of versions below which a setting is no prospect, however fast: a handful of odd versions must not lead a trial. */
const PROSPECT = 0.06;

function mostImproving(fresh: readonly Choice[], best: Float64Array, taken: ReadonlySet<Choice>): BatchPick | null {
  let found: Choice | null = null;
  let most = 0;
  for (const choice of fresh) {
    // No version can gain more than the whole rate: a quick bound saves most of the sums.
    if (choice.share < PROSPECT || choice.share * choice.areaRate <= most * (1 + 1e-12) || taken.has(choice)) continue;
    let sum = 0;
    for (let s = 0; s < best.length; s++) {
      const more = choice.meets[s]! * choice.areaRate - best[s]!;
      if (more > 0) sum += more;
    }
    if (sum / best.length > most) {
      most = sum / best.length;
      found = choice;
    }
  }
  if (found === null) return null;
  let better = 0;
  let first = true;
  for (let s = 0; s < best.length; s++) {
    if (best[s]! > 0) first = false;
    if (found.meets[s]! * found.areaRate > best[s]!) better++;
  }
  return { choice: found, why: first ? "first" : "faster", share: better / best.length };
}

/** Highest chance, but not on a ray that the batch has already: a batch does not sit on one spot. */
function likeliestApart(
  fresh: readonly Choice[],
  taken: ReadonlySet<Choice>,
  families: ReadonlyMap<number, number>,
): BatchPick | null {
  let found: Choice | null = null;
  let most = -1;
  for (const choice of fresh) {
    if (taken.has(choice)) continue;
    const worth = choice.both / (1 + (families.get(choice.family) ?? 0));
    if (worth > most) {
      most = worth;
      found = choice;
    }
  }
  return found === null ? null : { choice: found, why: "likely", share: found.share };
}
