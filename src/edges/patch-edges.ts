import type { Acceptance, PatchResult } from "#terms";

/** Where one version of the physics changes its verdict on one setting, as ln of a factor on the setting's power. */
export interface PatchEdges {
  /** half of the area is still covered below this */
  readonly half: number;
  /** more residue than accepted below this */
  readonly clean: number;
  /** the metal has begun to melt above this */
  readonly melt: number;
  /** harm beyond the acceptance above this */
  readonly damage: number;
}

/** ln power: edges farther away than this are held there. A factor of 20 either way is beyond any machine's knob. */
export const EDGE_SPAN = 3;
/** ln power to which an edge is found; below the scatter of any coupon. */
const TOLERANCE = 0.03;
/** The same for the two lesser edges, and for edges that no power of the machine comes near. */
const COARSE = 0.08;
const FAR_OFF = 0.3;
const NEAR = { low: -2.2, high: 0.8 } as const;

/** A patch at a factor exp(u) of the setting's power. */
export type PatchAt = (u: number) => PatchResult;

/**
 * The edges of one version of the physics on one setting.
 *
 * Equation: the lowest u at which residue ≤ ½, residue ≤ residueMax, meltingRatio > 1, and at which the patch is harmed
 * (grade above metalConditionMax, or damageMargin < 0), each by bracketing and halving; residue falls and harm rises with
 * power as far as the physics is monotone, else the edge is one of the crossings.
 * Units: u ln of a power factor, 1; guess likewise, where to look first. Result within ±EDGE_SPAN, to 0.03 (half
 * and melt 0.08; beyond what a machine reaches, below −2.2 or above 0.8, 0.3).
 * Without `lesser` the edges of half and of melt are not looked for and stand at clean and at damage: they are asked for
 * only where a patch was burned.
 * Errors: none beside those of `at`. Source: definition of the two edges.
 */
export function patchEdges(
  at: PatchAt,
  acceptance: Pick<Acceptance, "residueMax" | "metalConditionMax">,
  guess: { readonly clean: number; readonly damage: number } = { clean: 0, damage: 0 },
  lesser = true,
): PatchEdges {
  const known: { readonly u: number; readonly result: PatchResult }[] = [];
  const ask = (u: number): PatchResult => {
    for (const k of known) if (k.u === u) return k.result;
    const result = at(u);
    known.push({ u, result });
    return result;
  };
  const harmed = (r: PatchResult) => r.metalCondition > acceptance.metalConditionMax || r.damageMargin < 0;
  const clean = firstWhere(ask, known, (r) => r.residueFraction <= acceptance.residueMax, guess.clean);
  const half = lesser ? firstWhere(ask, known, (r) => r.residueFraction <= 0.5, clean, COARSE) : clean;
  const damage = firstWhere(ask, known, harmed, byMargin(known) ?? guess.damage);
  const melt = lesser ? firstWhere(ask, known, (r) => r.meltingRatio > 1 || harmed(r), damage, COARSE) : damage;
  return { half: Math.min(half, clean), clean, melt: Math.min(melt, damage), damage };
}

type Known = readonly { readonly u: number; readonly result: PatchResult }[];

/** Where the margin of the evaluation nearest to the edge says that the edge is. */
function byMargin(known: Known): number | null {
  let best: number | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const { u, result } of known) {
    const off = Math.abs(result.damageMargin);
    if (off < least && off < EDGE_SPAN) {
      least = off;
      best = u + result.damageMargin;
    }
  }
  return best === null ? null : Math.max(-EDGE_SPAN, Math.min(EDGE_SPAN, best));
}

/** Lowest u at which a condition holds that, once met, stays met; what is known already narrows the search. */
function firstWhere(
  ask: PatchAt,
  known: Known,
  holds: (r: PatchResult) => boolean,
  guess: number,
  fine: number = TOLERANCE,
): number {
  let low = -EDGE_SPAN;
  let high = EDGE_SPAN;
  let lowKnown = false;
  let highKnown = false;
  for (const { u, result } of known) {
    if (holds(result)) {
      if (u <= high) {
        high = u;
        highKnown = true;
      }
    }
  }
  for (const { u, result } of known) {
    if (!holds(result) && u < high && u >= low) {
      low = u;
      lowKnown = true;
    }
  }
  // Steps out from the guess until both sides are known.
  const close = (low: number, high: number) =>
    high - low <= (high < NEAR.low || low > NEAR.high ? Math.max(FAR_OFF, fine) : fine);
  let step = 2 * TOLERANCE;
  let u = Math.min(high, Math.max(low, guess));
  while (!(lowKnown && highKnown) && !close(low, high)) {
    if (lowKnown && u <= low) u = low + step;
    if (highKnown && u >= high) u = high - step;
    if (u <= -EDGE_SPAN || u >= EDGE_SPAN) {
      const edge = u <= -EDGE_SPAN ? -EDGE_SPAN : EDGE_SPAN;
      const met = holds(ask(edge));
      if (met && edge < 0) return -EDGE_SPAN;
      if (!met && edge > 0) return EDGE_SPAN;
      if (met) {
        high = edge;
        highKnown = true;
      } else {
        low = edge;
        lowKnown = true;
      }
      continue;
    }
    if (holds(ask(u))) {
      high = u;
      highKnown = true;
      u -= step;
    } else {
      low = u;
      lowKnown = true;
      u += step;
    }
    step *= 3;
  }
  while (!close(low, high)) {
    const middle = (low + high) / 2;
    if (holds(ask(middle))) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}
