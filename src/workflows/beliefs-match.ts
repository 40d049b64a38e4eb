import type { Belief, SourceKind, Stack } from "#terms";

/** Family of a metal by its id; null where nobody knows the metal. */
export type FamilyOf = (metalId: string) => string | null;

/** Set-up of the job at hand, and the kinds of set-ups by their ids; null where nobody knows one. */
export interface JobSetup {
  readonly setupId: string;
  readonly kindOf: (setupId: string) => SourceKind | null;
}

/** How much of a lesson counts: own choices, stated to the person each time. */
const SHARES = { sameMetal: 1 / 2, sameFamily: 1 / 4, shift: 1 / 4, shiftOtherSetup: 1 / 8 } as const;

/** Share by the metal alone; 0 on another family, where neither the metal's numbers nor the bond to it carry over. */
function metalShare(belief: Belief, stack: Stack, familyOf: FamilyOf): number {
  if (belief.metalId === stack.metal.id) return SHARES.sameMetal;
  return familyOf(belief.metalId) === stack.metal.family ? SHARES.sameFamily : 0;
}

const tagged = (layers: Belief["layers"]) => layers.map((l) => `${l.kindId}:${l.colour}`);
const tags = (stack: Stack) => stack.layers.map((l) => `${l.kind.id}:${l.colour}`);

/** A name of the job's stack as the belief would have written it, and the share that counts; null: not carried. */
export function matchName(
  name: string,
  stack: Stack,
  belief: Belief,
  familyOf: FamilyOf,
): { readonly coordinate: string; readonly share: number } | null {
  const [what, first, second, last] = name.split(":");
  const share = metalShare(belief, stack, familyOf);
  // Every part has its own thickness, every machine its own spot and power.
  if (share === 0 || what === "machine" || last?.split("#")[0] === "thickness") return null;
  if (what === "metal") return { coordinate: `metal:${belief.metalId}:${second}`, share };
  const known = tagged(belief.layers);
  const met = what === "layer" ? known.includes(`${first}:${second}`) : tags(stack).some((t) => known.includes(t));
  return met ? { coordinate: name, share } : null;
}

/**
 * Share that counts of a shift: only under the same coat and from the same kind of source, since pulsed and continuous
 * shifts are anchored at other times and doses; less on another set-up, half again on another metal.
 */
export function shiftShare(belief: Belief, stack: Stack, job: JobSetup, familyOf: FamilyOf): number {
  if (tagged(belief.layers).join() !== tags(stack).join()) return 0;
  if (belief.setupId !== job.setupId && job.kindOf(belief.setupId) !== job.kindOf(job.setupId)) return 0;
  const metal = metalShare(belief, stack, familyOf) / SHARES.sameMetal;
  return metal * (belief.setupId === job.setupId ? SHARES.shift : SHARES.shiftOtherSetup);
}
