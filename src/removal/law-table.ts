import type { StackSample } from "#terms";
import { type CharLaw, charLaw } from "./char-law.ts";
import { type EatenFrom, fillEaten, firstEaten } from "./eaten.ts";
import { interlayerStrength } from "./interlayer.ts";
import { COLUMNS, keptRise, type LawConditions, STEP } from "./law-conditions.ts";
import {
  filmFactor,
  INTERFACE_REFERENCE_TIME,
  stressHeld,
  stressStrength,
  ventingFactor,
  ventLength,
} from "./interface-gas.ts";
import type { Kernel, KernelNode } from "./kernel-types.ts";
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
  /** ln of the median adhesion overcome between two layers of the coat, where it parts most easily; null: one layer */
  readonly inner?: InnerLaw | null;
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

export const NO_STRENGTH = -60;

/** Parting between the layers of a coat, over the columns and nodes of the law. */
export interface InnerLaw {
  readonly strength: Float64Array;
  /** m that stay below the face that parts */
  readonly left: Float64Array;
}

/** Everything that a row needs, worked out once per table. */
interface Case {
  readonly sample: StackSample;
  readonly kernel: Kernel;
  readonly response: MetalResponse;
  readonly conditions: LawConditions;
  readonly eatenFrom: EatenFrom;
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
  const inner = nodes.some((n) => (n.inner ?? []).length > 0)
    ? { strength: new Float64Array(size).fill(NO_STRENGTH), left: new Float64Array(size) }
    : null;
  const each = (of: (node: KernelNode) => number): Float64Array => {
    const values = new Float64Array(nodes.length);
    for (let i = 0; i < values.length; i++) values[i] = of(nodes[i]);
    return values;
  };
  const begin = each((n) => firstEaten(n, conditions));
  const { remaining, relaxation, chars } = nodeFigures(nodes);
  const c: Case = {
    eatenFrom: { remaining, begin },
    sample,
    kernel,
    response,
    conditions,
    ...columnsFor(conditions.peakFluence, begin, lnFluenceFirst),
  };
  let char: CharLaw | null | undefined;
  return {
    ...rows,
    inner,
    lnFluenceFirst,
    lnFluenceStep: STEP,
    columns: COLUMNS,
    remaining,
    metalRise: each((n) => n.metalRise * lateralFactor),
    stayRise: each((n) => Math.max(n.stayRise - (1 - lateralFactor) * n.interfaceRise, n.stayRise * lateralFactor)),
    startTemperature: start,
    firstEaten: begin,
    relaxation,
    chars,
    reactionTime: kernel.reactionTime,
    need(row) {
      if (ready[row] === 1) return;
      ready[row] = 1;
      fillRow(c, rows, row, lnFluenceFirst);
      if (inner) fillInner(c, inner, row, lnFluenceFirst);
    },
    char() {
      if (char === undefined) char = charLaw(sample, kernel, conditions, lnFluenceFirst);
      return char;
    },
  };
}

function fillRow(
  { sample, kernel, response, conditions, eatenFrom, from: firstColumn, to: endColumn }: Case,
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
  const interfaceRise = keptRise(node.interfaceRise, node, lateralFactor);
  const mean = keptRise(node.meanRise, node, lateralFactor);
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
  fillEaten(node, conditions, rows.eaten, from, lnFluenceFirst, time, eatenFrom);
}

/** Parting between layers: at each fluence the face that is farthest over its strength. */
function fillInner(
  { kernel, conditions, from: firstColumn, to: endColumn }: Case,
  inner: InnerLaw,
  row: number,
  lnFluenceFirst: number,
): void {
  const node = kernel.nodes[row];
  const { startTemperature: start, radius, lateralFactor } = conditions;
  for (const face of node.inner ?? []) {
    const rise = keptRise(face.rise, node, lateralFactor);
    const mean = keptRise(face.meanAbove, node, lateralFactor);
    for (let column = firstColumn; column < endColumn; column++) {
      const fluence = Math.exp(lnFluenceFirst + STEP * column);
      const strength = interlayerStrength(face.above, {
        time: kernel.reactionTime,
        temperature: start + fluence * rise,
        meanAbove: start + fluence * mean,
        radius,
      });
      const at = row * COLUMNS + column;
      // Of equal ones the deepest: then more goes.
      if (strength < inner.strength[at]) continue;
      inner.strength[at] = Math.max(strength, NO_STRENGTH);
      inner.left[at] = face.left;
    }
  }
}

interface NodeFigures {
  readonly remaining: Float64Array;
  readonly relaxation: Float64Array;
  readonly chars: Float64Array;
}
const figures = new WeakMap<readonly KernelNode[], NodeFigures>();

/** What every table of a kernel shares. Kept per kernel. */
function nodeFigures(nodes: readonly KernelNode[]): NodeFigures {
  const made = figures.get(nodes) ?? {
    remaining: Float64Array.from(nodes, (n) => n.remaining),
    relaxation: Float64Array.from(nodes, (n) => n.relaxation),
    chars: Float64Array.from(nodes, (n) => n.char[0] ?? 0),
  };
  figures.set(nodes, made);
  return made;
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
