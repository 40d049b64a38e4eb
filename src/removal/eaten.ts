import type { KernelNode } from "./kernel-types.ts";
import { COLUMNS, keptRise, type LawConditions, STEP } from "./law-conditions.ts";

/** J/m² at which one cell is eaten. */
function cellThreshold(node: KernelNode, cell: number, { startTemperature, lateralFactor }: LawConditions): number {
  return Math.max(node.eatenAt[cell] - startTemperature, 0) / keptRise(node.rise[cell], node, lateralFactor);
}

export function firstEaten(node: KernelNode, conditions: LawConditions): number {
  return node.remaining > 0 && node.rise.length > 0 ? cellThreshold(node, 0, conditions) : Number.POSITIVE_INFINITY;
}

/** m taken off from above at each fluence: whole cells contiguous from the top, and the part of the next one by where its threshold would fall. */
export function fillEaten(
  node: KernelNode,
  conditions: LawConditions,
  eaten: Float64Array,
  from: number,
  lnFluenceFirst: number,
  time: number,
  law: EatenFrom = NO_NODES,
): void {
  const cells = node.rise.length;
  const growth = Math.exp(STEP);
  let fluence = Math.exp(lnFluenceFirst);
  let cell = 0;
  let gone = 0;
  let threshold = firstEaten(node, conditions);
  const begin = threshold;
  const perMetre = node.volumetricHeat * Math.max(node.eatenAt[0] - conditions.startTemperature, 1);
  let before = threshold * 0.98;
  for (let column = 0; column < COLUMNS; column++, fluence *= growth) {
    while (cell < cells && fluence >= threshold) {
      gone = node.depth[cell];
      before = threshold;
      cell++;
      if (cell < cells) threshold = Math.max(threshold, cellThreshold(node, cell, conditions));
    }
    const partly =
      cell < cells && fluence > before && threshold > before ? (fluence - before) / (threshold - before) : 0;
    const read = cell < cells ? gone + partly * (node.depth[cell] - gone) : gone;
    const receded = recession(fluence, begin, node.stripShare, perMetre, time);
    const held = heldByMetal(fluence, node.remaining, law);
    // Beyond what is there: the share of the event that is left over goes on to char and metal.
    eaten[from + column] = Math.max(
      Math.min(node.remaining, read),
      held > 0 ? Math.min(receded, node.remaining - held) : receded,
    );
  }
}

const NO_NODES: EatenFrom = { remaining: new Float64Array(0), begin: new Float64Array(0) };

/** Thicknesses of the law, ascending, and the fluence at which the top of each begins to be eaten. */
export interface EatenFrom {
  readonly remaining: Float64Array;
  readonly begin: Float64Array;
}

/**
 * Thickness that an event leaves because the metal below draws its heat off: the one whose top only just begins to be
 * eaten; 0 where no node below asks for more. ln-ln between nodes.
 *
 * Units: fluence J/m², left m; result m. Range: above 0. Errors: none. Source: own, from the kernel's nodes.
 */
export function heldByMetal(fluence: number, left: number, { remaining, begin }: EatenFrom): number {
  for (let i = remaining.length - 1; i >= 1; i--) {
    const thinner = remaining[i]!;
    if (thinner >= left || begin[i]! <= fluence) continue;
    const above = Math.min(remaining[i + 1]!, left);
    const easier = begin[i + 1]!;
    if (easier >= fluence) return above;
    return thinner * (above / thinner) ** (Math.log(fluence / begin[i]!) / Math.log(easier / begin[i]!));
  }
  return 0;
}

/**
 * Depth that a long event eats because the surface moves on as matter leaves and the light follows it, m.
 *
 * Equation: a·(F − F₀)/h, times 1/(1 + 1 µs/τ): what is thrown off by a nanosecond pulse shades the rest of it.
 * Units: fluence F and that at which eating begins F₀ J/m², share a of the light that the layer takes 1, heat per volume
 * h J/m³, time τ s; result m. Range: all above 0. Errors: none.
 * Source: energy balance of steady ablation, own; the clearing time of the vapour is a prior, from memory.
 */
export function recession(fluence: number, begin: number, share: number, perMetre: number, time: number): number {
  return fluence > begin ? (share * (fluence - begin)) / (perMetre * (1 + CLEARING_TIME / time)) : 0;
}

/** s, time in which vapour and fragments leave the path of the light (from memory). */
const CLEARING_TIME = 1e-6;
