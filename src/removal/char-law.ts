import type { StackSample } from "#terms";
import { CARBON_SUBLIMATION, charBurnt, charHeat, charShattered, charSublimated } from "./char.ts";
import { recession } from "./eaten.ts";
import type { CharNode, Kernel } from "./kernel-types.ts";
import { COLUMNS, type LawConditions, STEP } from "./law-conditions.ts";

/** What one event takes off a char, over ln fluence (the columns of the law) and what is left of it. */
export interface CharLaw {
  /** m, in the room of the layer, ascending */
  readonly remaining: Float64Array;
  /** m that one event takes off at a node and a column of the law; worked out when first asked */
  gone(node: number, column: number): number;
  /** per node: K·m²/J of the metal's surface */
  readonly metalRise: Float64Array;
}

/**
 * Burn-off in air, sublimation, recession and shattering of a char, the most of them counting.
 *
 * Units: see `CharLaw`. Range: as the kernel; null where nothing chars. Errors: none.
 * Source: `charBurnt`, `charSublimated`, `recession`, `charShattered`; own derivation.
 */
export function charLaw(
  sample: StackSample,
  kernel: Kernel,
  conditions: LawConditions,
  lnFluenceFirst: number,
): CharLaw | null {
  const nodes = kernel.charNodes();
  if (nodes.length === 0) return null;
  const { startTemperature: start, lateralFactor, radius } = conditions;
  const kinetics = sample.layers.find((l) => l.decomposition?.char && !l.mustStay)?.decomposition?.char;
  if (!kinetics) return null;
  const known = new Float64Array(nodes.length * COLUMNS).fill(-1);
  const gone = (row: number, column: number): number => {
    const at = row * COLUMNS + column;
    if (known[at] >= 0) return known[at];
    const node = nodes[row];
    const fluence = Math.exp(lnFluenceFirst + STEP * column);
    known[at] = charGone(
      node,
      kinetics,
      fluence,
      start,
      (1 - lateralFactor) * node.metalRise,
      lateralFactor,
      radius,
      kernel.reactionTime,
    );
    return known[at];
  };
  return {
    remaining: Float64Array.from(nodes, (n) => n.remaining),
    gone,
    metalRise: Float64Array.from(nodes, (n) => n.metalRise * lateralFactor),
  };
}

function charGone(
  node: CharNode,
  kinetics: { preExponential: number; activationEnergy: number },
  fluence: number,
  start: number,
  lost: number,
  lateralFactor: number,
  radius: number,
  time: number,
): number {
  let sum = 0;
  const begin = (CARBON_SUBLIMATION - start) / Math.max(node.rise[0] - lost, node.rise[0] * lateralFactor);
  const receded = recession(fluence, begin, node.share, node.density * charHeat(start), time);
  for (let i = 0; i < node.rise.length; i++) {
    const hot = start + fluence * Math.max(node.rise[i] - lost, node.rise[i] * lateralFactor);
    const burnt = charBurnt(
      kinetics,
      Math.min(hot, CARBON_SUBLIMATION),
      node.time[i],
      node.remaining,
      node.density,
      radius,
    );
    sum += node.width[i] * Math.max(burnt, charSublimated(hot));
  }
  const shattered = fluence > begin ? node.remaining * charShattered(time) : 0;
  return Math.min(node.remaining, Math.max(sum, receded, shattered));
}
