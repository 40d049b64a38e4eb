import type { StackSample } from "#terms";
import {
  filmFactor,
  interfaceGasStrength,
  stressHeld,
  stressStrength,
  ventingFactor,
  ventLength,
} from "./interface-gas.ts";
import type { Kernel, KernelNode } from "./kernel.ts";
import type { MetalResponse } from "./metal-response.ts";
import { stripOf } from "./strip.ts";

/**
 * What one event does, tabulated over ln fluence and remaining thickness for one version of the physics, one starting
 * temperature and one spot: the law that a patch is stamped with. Flat arrays, node-major.
 */
export interface LawTable {
  /** ln(J/m²) of the first column, and the step between columns */
  readonly lnFluenceFirst: number;
  readonly lnFluenceStep: number;
  readonly columns: number;
  /** m, ascending; [0] is the bare face */
  readonly remaining: Float64Array;
  /** m eaten from above, char left out */
  readonly eaten: Float64Array;
  /** ln of the adhesion (over the median) that is overcome; −Infinity is stored as −60 */
  readonly strength: Float64Array;
  /** true where the stress route is the stronger one */
  readonly byStress: Uint8Array;
  /** per node: K·m²/J of the metal's surface, lateral spreading included */
  readonly metalRise: Float64Array;
  /** per node: K·m²/J at the top of the layer that stays */
  readonly stayRise: Float64Array;
  readonly startTemperature: number;
  /** per node: J/m² at which the top of the layer begins to be eaten */
  readonly firstEaten: Float64Array;
  /** per node: s in which the layer loses the heat it holds */
  readonly relaxation: Float64Array;
}

const STEP = 0.16;
const COLUMNS = 56;
export const NO_STRENGTH = -60;

export interface LawConditions {
  /** K, temperature of the part just before the event */
  readonly startTemperature: number;
  /** m, 1/e² radius at the work */
  readonly radius: number;
  /** 1, how much of the column's metal rise is left when heat spreads sideways */
  readonly lateralFactor: number;
  /** ln(J/m²), first column; left out: chosen from the kernel */
  readonly lnFluenceFirst?: number;
}

/**
 * Tabulates the three ways off for one kernel.
 *
 * Units: see `LawTable`. Range: conditions positive, lateralFactor in (0, 1]. Errors: none.
 * Source: `interfaceGasStrength`, `stressStrength`, `conversionTemperature` and the kernel; own derivation.
 */
export function lawTable(
  sample: StackSample,
  kernel: Kernel,
  response: MetalResponse,
  conditions: LawConditions,
): LawTable {
  const { nodes } = kernel;
  const strip = stripOf(sample);
  const bottom = strip.off[strip.off.length - 1];
  const below = strip.stay[0];
  const lnFluenceFirst = conditions.lnFluenceFirst ?? Math.log(lowestFluence(nodes));
  const size = nodes.length * COLUMNS;
  const eaten = new Float64Array(size);
  const strength = new Float64Array(size).fill(NO_STRENGTH);
  const byStress = new Uint8Array(size);
  const metalRise = new Float64Array(nodes.length);
  const stayRise = new Float64Array(nodes.length);
  const firstEaten = new Float64Array(nodes.length).fill(Number.POSITIVE_INFINITY);
  const { startTemperature: start, radius, lateralFactor } = conditions;

  nodes.forEach((node, row) => {
    const lost = (1 - lateralFactor) * node.interfaceRise;
    metalRise[row] = node.metalRise * lateralFactor;
    stayRise[row] = Math.max(node.stayRise - lost, node.stayRise * lateralFactor);
    if (node.remaining === 0 || !bottom) return;
    const need = filmFactor(node.remaining, bottom.filmStrength, radius, bottom.adhesionStrength);
    const held = stressHeld(kernel.reactionTime);
    const interfaceRise = Math.max(node.interfaceRise - lost, node.interfaceRise * lateralFactor);
    const brittle = bottom.decomposition === null;
    const expansionDifference = bottom.expansion - (below ? below.expansion : sample.metal.expansion);
    const mean = Math.max(node.meanRise - lost, node.meanRise * lateralFactor);
    const threshold = eatenThresholds(node, start, lost, lateralFactor);
    if (threshold.length > 0) firstEaten[row] = threshold[0];
    for (let column = 0; column < COLUMNS; column++) {
      const fluence = Math.exp(lnFluenceFirst + STEP * column);
      const at = row * COLUMNS + column;
      const rise = below ? fluence * interfaceRise : response.rise(fluence * interfaceRise, start);
      const gas = interfaceGasStrength(
        bottom.interfaceTemperature,
        bottom.interfaceActivationEnergy,
        kernel.reactionTime,
        start + rise,
        need *
          ventingFactor(
            kernel.reactionTime,
            brittle ? radius : ventLength(radius, node.remaining, start + fluence * mean),
          ),
      );
      const stress = brittle
        ? stressStrength(
            bottom.youngsModulus,
            expansionDifference,
            fluence * mean,
            bottom.poissonRatio,
            bottom.adhesionStrength,
          ) + held
        : NO_STRENGTH;
      strength[at] = Math.max(gas, stress, NO_STRENGTH);
      byStress[at] = stress > gas ? 1 : 0;
      eaten[at] = eatenDepth(node, threshold, fluence);
    }
  });
  return {
    lnFluenceFirst,
    lnFluenceStep: STEP,
    columns: COLUMNS,
    remaining: Float64Array.from(nodes, (n) => n.remaining),
    eaten,
    strength,
    byStress,
    metalRise,
    stayRise,
    startTemperature: start,
    firstEaten,
    relaxation: Float64Array.from(nodes, (n) => n.relaxation),
  };
}

/** J/m²: at a fiftieth of the fluence that warms the hottest place by 1000 K nothing happens yet. */
function lowestFluence(nodes: readonly KernelNode[]): number {
  let largest = 0;
  for (const node of nodes) {
    largest = Math.max(largest, node.metalRise);
    for (const rise of node.rise) largest = Math.max(largest, rise);
  }
  return 20 / largest;
}

/** J/m² at which each cell and all cells above it are eaten (contiguous from the top, so never falling). */
function eatenThresholds(node: KernelNode, start: number, lost: number, lateralFactor: number): Float64Array {
  const result = new Float64Array(node.rise.length);
  let largest = 0;
  for (let i = 0; i < result.length; i++) {
    const rise = Math.max(node.rise[i] - lost, node.rise[i] * lateralFactor);
    largest = Math.max(largest, Math.max(node.eatenAt[i] - start, 0) / rise);
    result[i] = largest;
  }
  return result;
}

/** m taken off from above at a fluence: whole cells, and the part of the next one by where the threshold would fall. */
function eatenDepth(node: KernelNode, threshold: Float64Array, fluence: number): number {
  let gone = 0;
  for (let i = 0; i < threshold.length; i++) {
    const upper = i === 0 ? 0 : node.depth[i - 1];
    const width = node.depth[i] - upper;
    if (fluence < threshold[i]) {
      const before = i === 0 ? threshold[0] * 0.98 : threshold[i - 1];
      if (fluence > before && threshold[i] > before)
        gone += ((width * (fluence - before)) / (threshold[i] - before)) * (1 - node.char[i]);
      break;
    }
    gone += width * (1 - node.char[i]);
  }
  return gone;
}

/** Law between two durations, blended linearly by `weight` of the second. Both must share their grids. */
export function blendLaw(first: LawTable, second: LawTable, weight: number): LawTable {
  if (weight <= 0) return first;
  const mix = (a: Float64Array, b: Float64Array) => Float64Array.from(a, (v, i) => v + weight * (b[i] - v));
  return {
    ...first,
    eaten: mix(first.eaten, second.eaten),
    strength: mix(first.strength, second.strength),
    byStress: weight < 0.5 ? first.byStress : second.byStress,
    metalRise: mix(first.metalRise, second.metalRise),
    stayRise: mix(first.stayRise, second.stayRise),
  };
}
