import type { StackSample } from "#terms";
import { CARBON_SUBLIMATION, charBurnt, charHeat, charSublimated } from "./char.ts";
import {
  filmFactor,
  INTERFACE_REFERENCE_TIME,
  stressHeld,
  stressStrength,
  ventingFactor,
  ventLength,
} from "./interface-gas.ts";
import type { CharNode, Kernel, KernelNode } from "./kernel.ts";
import type { MetalResponse } from "./metal-response.ts";
import { GAS_CONSTANT } from "./gas-constant.ts";
import { stripOf } from "./strip.ts";

/**
 * What one event does, tabulated over ln fluence and remaining thickness for one version of the physics, one starting
 * temperature and one spot: the law that a patch is stamped with. Flat arrays, node-major. Rows are filled when they are
 * first needed, because most patches meet two or three of them: call `need(row)` before reading a row of `eaten`,
 * `strength` or `byStress`.
 */
export interface LawTable {
  /** ln(J/m²) of the first column, and the step between columns */
  readonly lnFluenceFirst: number;
  readonly lnFluenceStep: number;
  readonly columns: number;
  /** m, ascending; [0] is the bare face */
  readonly remaining: Float64Array;
  /** m eaten from above, whatever stays of it as char */
  readonly eaten: Float64Array;
  /** ln of the adhesion (over the median) that is overcome; −Infinity is stored as −60 */
  readonly strength: Float64Array;
  /** 1 where the stress route is the stronger one */
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
  /** per node, 1 where what is eaten next chars when heated slowly, 0 where not */
  readonly chars: Float64Array;
  /** s, the time that goes into the criteria */
  readonly reactionTime: number;
  /** fills one row */
  need(row: number): void;
  /** the char law; asked for only when there is char */
  char(): CharLaw | null;
}

/** What one event takes off a char, over ln fluence (the columns of the law) and what is left of it. */
export interface CharLaw {
  /** m, in the room of the layer, ascending */
  readonly remaining: Float64Array;
  /** m that one event takes off at a node and a column of the law; worked out when first asked */
  gone(node: number, column: number): number;
  /** per node: K·m²/J of the metal's surface */
  readonly metalRise: Float64Array;
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
  /** J/m², strongest event that will be asked about: columns that it cannot reach stay empty; left out: all are filled */
  readonly peakFluence?: number;
}

/** Everything that a row needs, worked out once per table. */
interface Case {
  readonly sample: StackSample;
  readonly kernel: Kernel;
  readonly response: MetalResponse;
  readonly conditions: LawConditions;
  /** columns that are filled */
  readonly from: number;
  readonly to: number;
}

/** ln of the share of the peak below which an event is not asked about, and room above it for incubation. */
const FAINTEST = -6.2;
const INCUBATED = 2;

/** Columns between the faintest event and the strongest, with the heat that earlier ones kept in the layer. */
function columnsFor(
  peak: number | undefined,
  begin: Float64Array,
  lnFluenceFirst: number,
): { from: number; to: number } {
  if (peak === undefined) return { from: 0, to: COLUMNS };
  const lnPeak = Math.log(peak);
  let highest = lnPeak + INCUBATED;
  // Kept heat stays below where eating begins, and one more event comes on top.
  for (const b of begin) if (Number.isFinite(b)) highest = Math.max(highest, Math.log(b + peak));
  return {
    from: Math.min(COLUMNS - 2, Math.max(0, Math.floor((lnPeak + FAINTEST - lnFluenceFirst) / STEP))),
    to: Math.max(2, Math.min(COLUMNS, Math.ceil((highest - lnFluenceFirst) / STEP) + 2)),
  };
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
  const lnFluenceFirst = conditions.lnFluenceFirst ?? Math.log(lowestFluence(nodes));
  const size = nodes.length * COLUMNS;
  const { startTemperature: start, lateralFactor } = conditions;
  const rows = { eaten: new Float64Array(size), strength: new Float64Array(size), byStress: new Uint8Array(size) };
  const ready = new Uint8Array(nodes.length);
  const each = (of: (node: KernelNode) => number): Float64Array => {
    const values = new Float64Array(nodes.length);
    for (let i = 0; i < values.length; i++) values[i] = of(nodes[i]);
    return values;
  };
  const begin = each((n) => firstEaten(n, conditions));
  const c: Case = {
    sample,
    kernel,
    response,
    conditions,
    ...columnsFor(conditions.peakFluence, begin, lnFluenceFirst),
  };
  let char: CharLaw | null | undefined;
  return {
    ...rows,
    lnFluenceFirst,
    lnFluenceStep: STEP,
    columns: COLUMNS,
    remaining: each((n) => n.remaining),
    metalRise: each((n) => n.metalRise * lateralFactor),
    stayRise: each((n) => Math.max(n.stayRise - (1 - lateralFactor) * n.interfaceRise, n.stayRise * lateralFactor)),
    startTemperature: start,
    firstEaten: begin,
    relaxation: each((n) => n.relaxation),
    chars: each((n) => n.char[0] ?? 0),
    reactionTime: kernel.reactionTime,
    need(row) {
      if (ready[row] === 1) return;
      ready[row] = 1;
      fillRow(c, rows, row, lnFluenceFirst);
    },
    char() {
      if (char === undefined) char = charLaw(c, lnFluenceFirst);
      return char;
    },
  };
}

/** K·m²/J that is left of a rise in the layer when heat spreads sideways in the metal: what the interface loses, at most its share. */
function spreadRise(rise: number, node: KernelNode, lateralFactor: number): number {
  return Math.max(rise - (1 - lateralFactor) * node.interfaceRise, rise * lateralFactor);
}

function fillRow(
  { sample, kernel, response, conditions, from: firstColumn, to: endColumn }: Case,
  rows: { eaten: Float64Array; strength: Float64Array; byStress: Uint8Array },
  row: number,
  lnFluenceFirst: number,
): void {
  const node = kernel.nodes[row];
  const strip = stripOf(sample);
  const bottom = strip.off[strip.off.length - 1];
  const below = strip.stay[0];
  const from = row * COLUMNS;
  rows.strength.fill(NO_STRENGTH, from, from + COLUMNS);
  if (node.remaining === 0 || !bottom) return;
  const { startTemperature: start, radius, lateralFactor } = conditions;
  const time = kernel.reactionTime;
  const film = filmFactor(node.remaining, bottom.filmStrength, radius, bottom.adhesionStrength);
  const held = stressHeld(time);
  const interfaceRise = spreadRise(node.interfaceRise, node, lateralFactor);
  const mean = spreadRise(node.meanRise, node, lateralFactor);
  const brittle = bottom.decomposition === null;
  const brittleVent = ventingFactor(time, radius);
  const expansionDifference = bottom.expansion - (below ? below.expansion : sample.metal.expansion);
  // interfaceGasStrength with its constants taken out of the loop
  const steep = bottom.interfaceActivationEnergy / GAS_CONSTANT;
  const gasBase = Math.log(time / (INTERFACE_REFERENCE_TIME * film)) + steep / bottom.interfaceTemperature;
  const stressBase = brittle
    ? stressStrength(bottom.youngsModulus, expansionDifference, mean, bottom.poissonRatio, bottom.adhesionStrength) +
      held
    : NO_STRENGTH;
  const growth = Math.exp(STEP);
  let fluence = Math.exp(lnFluenceFirst + STEP * firstColumn);
  for (let column = firstColumn; column < endColumn; column++, fluence *= growth) {
    const linear = fluence * interfaceRise;
    const hot = start + (below ? linear : response.rise(linear, start));
    const vent = brittle
      ? brittleVent
      : ventingFactor(time, ventLength(radius, node.remaining, start + fluence * mean));
    const gas = gasBase - steep / hot - Math.log(vent);
    const stress = brittle ? stressBase + lnFluenceFirst + STEP * column : NO_STRENGTH;
    rows.strength[from + column] = Math.max(gas, stress, NO_STRENGTH);
    rows.byStress[from + column] = stress > gas ? 1 : 0;
  }
  fillEaten(node, conditions, rows.eaten, from, lnFluenceFirst, time);
}

const lowest = new WeakMap<readonly KernelNode[], number>();

/** J/m²: at a fiftieth of the fluence that warms the hottest place by 1000 K nothing happens yet. Kept per kernel. */
function lowestFluence(nodes: readonly KernelNode[]): number {
  const known = lowest.get(nodes);
  if (known !== undefined) return known;
  let largest = 0;
  for (const node of nodes) {
    largest = Math.max(largest, node.metalRise);
    for (const rise of node.rise) largest = Math.max(largest, rise);
  }
  lowest.set(nodes, 20 / largest);
  return 20 / largest;
}

/** J/m² at which one cell is eaten. */
function cellThreshold(node: KernelNode, cell: number, { startTemperature, lateralFactor }: LawConditions): number {
  return Math.max(node.eatenAt[cell] - startTemperature, 0) / spreadRise(node.rise[cell], node, lateralFactor);
}

function firstEaten(node: KernelNode, conditions: LawConditions): number {
  return node.remaining > 0 && node.rise.length > 0 ? cellThreshold(node, 0, conditions) : Number.POSITIVE_INFINITY;
}

/** m taken off from above at each fluence: whole cells contiguous from the top, and the part of the next one by where its threshold would fall. */
function fillEaten(
  node: KernelNode,
  conditions: LawConditions,
  eaten: Float64Array,
  from: number,
  lnFluenceFirst: number,
  time: number,
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
    eaten[from + column] = Math.min(node.remaining, Math.max(read, receded));
  }
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

/** Burn-off in air and sublimation of a char, cell by cell. */
function charLaw({ sample, kernel, conditions }: Case, lnFluenceFirst: number): CharLaw | null {
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
  return Math.min(node.remaining, Math.max(sum, receded));
}

/** Law between two durations, blended linearly by `weight` of the second. Both must share their grids. */
export function blendLaw(first: LawTable, second: LawTable, weight: number): LawTable {
  if (weight <= 0) return first;
  const mix = (a: Float64Array, b: Float64Array) => Float64Array.from(a, (v, i) => v + weight * (b[i] - v));
  const { columns } = first;
  const eaten = new Float64Array(first.eaten.length);
  const strength = new Float64Array(first.strength.length);
  const byStress = new Uint8Array(first.byStress.length);
  const ready = new Uint8Array(first.remaining.length);
  let char: CharLaw | null | undefined;
  return {
    ...first,
    eaten,
    strength,
    byStress,
    metalRise: mix(first.metalRise, second.metalRise),
    stayRise: mix(first.stayRise, second.stayRise),
    // Infinite where the layer cannot be eaten, on both sides alike.
    firstEaten: first.firstEaten.map((v, i) => (Number.isFinite(v) ? v + weight * (second.firstEaten[i] - v) : v)),
    reactionTime: first.reactionTime * (second.reactionTime / first.reactionTime) ** weight,
    need(row) {
      if (ready[row] === 1) return;
      ready[row] = 1;
      first.need(row);
      second.need(row);
      for (let i = row * columns; i < (row + 1) * columns; i++) {
        eaten[i] = first.eaten[i] + weight * (second.eaten[i] - first.eaten[i]);
        strength[i] = first.strength[i] + weight * (second.strength[i] - first.strength[i]);
        byStress[i] = weight < 0.5 ? first.byStress[i] : second.byStress[i];
      }
    },
    char() {
      if (char === undefined) {
        const a = first.char();
        const b = second.char();
        char =
          a && b
            ? {
                remaining: a.remaining,
                gone: (row, column) => a.gone(row, column) + weight * (b.gone(row, column) - a.gone(row, column)),
                metalRise: mix(a.metalRise, b.metalRise),
              }
            : (a ?? b);
      }
      return char;
    },
  };
}
