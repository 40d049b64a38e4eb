import type { Belief } from "#terms";

/** Trials that a belief rests on besides its own, near and far. */
function ancestors(belief: Belief, byTrial: ReadonlyMap<string, Belief>): Set<string> {
  const found = new Set<string>();
  const open = [...(belief.builtOn ?? [])];
  for (let trial = open.pop(); trial !== undefined; trial = open.pop()) {
    if (found.has(trial)) continue;
    found.add(trial);
    open.push(...(byTrial.get(trial)?.builtOn ?? []));
  }
  return found;
}

const byTrialOf = (beliefs: readonly Belief[]) => new Map(beliefs.map((b) => [b.trialId, b]));

/**
 * Beliefs that may stand before the outcomes of these trials: none of the trials themselves and none built on them,
 * or their patches would count twice.
 */
export function beliefsWithout(beliefs: readonly Belief[], trials: readonly string[]): Belief[] {
  const byTrial = byTrialOf(beliefs);
  return beliefs.filter((b) => {
    const behind = ancestors(b, byTrial);
    return !trials.some((t) => t === b.trialId || behind.has(t));
  });
}

/** One belief per trial, the one with most patches (of equals the last). */
export function onePerTrial(beliefs: readonly Belief[]): Belief[] {
  const best = new Map<string, Belief>();
  for (const b of beliefs) if (b.patches >= (best.get(b.trialId)?.patches ?? 0)) best.set(b.trialId, b);
  return [...best.values()];
}

/** Of the beliefs that speak of one number, those that no other of them has taken in already. */
export function firstHand<T extends { readonly belief: Belief }>(speakers: readonly T[], all: readonly Belief[]): T[] {
  if (speakers.length < 2) return [...speakers];
  const byTrial = byTrialOf(all);
  const takenIn = new Set(speakers.flatMap(({ belief }) => [...ancestors(belief, byTrial)]));
  return speakers.filter(({ belief }) => !takenIn.has(belief.trialId));
}
