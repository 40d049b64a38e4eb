import { logRateConstant, reactionAdvance, reactionAdvanceSlope } from "./column-reaction.ts";
import type { ColumnState } from "./column-state.ts";

/** Scratch of the Newton iteration: made once per solve. */
export interface StageScratch {
  readonly rhs: Float64Array;
  readonly residual: Float64Array;
  readonly upper: Float64Array;
  /** reciprocal pivots of the last factorisation, kept for the error filter */
  readonly pivot: Float64Array;
  /** diagonal before conduction is added: 1, plus the slope of the reaction */
  readonly diagonal: Float64Array;
  readonly lower: Float64Array;
  /** derivative of the flow through the face above each cell by the enthalpy above and below it */
  readonly byAbove: Float64Array;
  readonly byBelow: Float64Array;
  readonly flow: Float64Array;
  /** J/m³, what counts as no error in a cell */
  readonly tolerance: Float64Array;
  readonly logBefore: Float64Array;
  readonly conversionBefore: Float64Array;
  readonly conversionAfter: Float64Array;
  iterations: number;
}

export function stageScratch(count: number): StageScratch {
  const numbers = () => new Float64Array(count);
  return {
    rhs: numbers(),
    residual: numbers(),
    upper: numbers(),
    pivot: numbers().fill(1),
    diagonal: numbers().fill(1),
    lower: numbers(),
    byAbove: numbers(),
    byBelow: numbers(),
    flow: new Float64Array(count + 1),
    tolerance: numbers(),
    logBefore: numbers(),
    conversionBefore: numbers(),
    conversionAfter: numbers(),
    iterations: 0,
  };
}

/** Temperatures, potentials and slopes of all cells from their enthalpies. */
export function evaluateCells(state: ColumnState): void {
  const { enthalpy, temperature, potential, temperatureSlope, potentialSlope, piece, table } = state;
  const { from, to, anchor } = table;
  for (let i = 0; i < enthalpy.length; i++) {
    const h = enthalpy[i]!;
    let s = piece[i]!;
    while (h < from[s]!) s--;
    while (h >= to[s]!) s++;
    piece[i] = s;
    const d = h - anchor[s]!;
    const a = table.temperatureSlope[s]!;
    const b = table.potentialSlope[s]!;
    temperatureSlope[i] = a;
    potentialSlope[i] = b;
    temperature[i] = table.temperature[s]! + a * d;
    potential[i] = table.potential[s]! + b * d;
  }
}

/** Heat flow through every face, its derivatives, and the inflow per volume of every cell. */
export function evaluateFlow(state: ColumnState, scratch: StageScratch): void {
  const { face, potential, temperature, potentialSlope, temperatureSlope, inflow, width } = state;
  const { byAbove, byBelow, flow } = scratch;
  const n = width.length;
  const m = state.grid.layerCount;
  for (let i = 1; i < n; i++) {
    const g = face[i]!;
    flow[i] = g * (potential[i - 1]! - potential[i]!);
    byAbove[i] = g * potentialSlope[i - 1]!;
    byBelow[i] = g * potentialSlope[i]!;
  }
  if (m > 0) {
    const g = face[m]!;
    flow[m] = g * (temperature[m - 1]! - temperature[m]!);
    byAbove[m] = g * temperatureSlope[m - 1]!;
    byBelow[m] = g * temperatureSlope[m]!;
  }
  for (let i = 0; i < n; i++) inflow[i] = (flow[i]! - flow[i + 1]!) / width[i]!;
}

/** Adds the heat of reaction to the residual and its slope to the diagonal. */
function addReaction(state: ColumnState, scratch: StageScratch, duration: number): void {
  const { temperature, temperatureSlope, logRate, activation, reactionHeat } = state;
  const { residual, diagonal, logBefore, conversionBefore, conversionAfter } = scratch;
  for (let i = 0; i < state.grid.layerCount; i++) {
    const left = 1 - conversionBefore[i]!;
    conversionAfter[i] = conversionBefore[i]!;
    diagonal[i] = 1;
    if (activation[i] === 0 || left <= 0) continue;
    const after = logRateConstant(logRate[i]!, activation[i]!, temperature[i]!);
    const advance = reactionAdvance(logBefore[i]!, after, duration);
    if (advance === 0) continue;
    const survived = Math.exp(-advance);
    conversionAfter[i] = 1 - left * survived;
    residual[i]! += reactionHeat[i]! * left * (1 - survived);
    const slope = reactionAdvanceSlope(logBefore[i]!, after, duration, activation[i]!, temperature[i]!);
    diagonal[i] = 1 + reactionHeat[i]! * left * survived * slope * temperatureSlope[i]!;
  }
}

/** Forward sweep and back substitution with the factors kept for reuse; solves in place into `x`. */
export function solveFactored(scratch: StageScratch, x: Float64Array): void {
  const { lower, upper, pivot } = scratch;
  const n = x.length;
  x[0] = x[0]! * pivot[0]!;
  for (let i = 1; i < n; i++) x[i] = (x[i]! - lower[i]! * x[i - 1]!) * pivot[i]!;
  for (let i = n - 2; i >= 0; i--) x[i] = x[i]! - upper[i]! * x[i + 1]!;
}

/** Factors the tridiagonal Jacobian: reciprocal pivots, multipliers above, entries below (Thomas). */
function factor(state: ColumnState, scratch: StageScratch, weight: number): void {
  const { lower, upper, pivot, diagonal, byAbove, byBelow } = scratch;
  const { width } = state;
  const n = width.length;
  let before = 0;
  for (let i = 0; i < n; i++) {
    const c = weight / width[i]!;
    const down = i + 1 < n ? byAbove[i + 1]! : 0;
    const low = -c * byAbove[i]!;
    const inverse = 1 / (diagonal[i]! + c * (byBelow[i]! + down) - low * before);
    lower[i] = low;
    pivot[i] = inverse;
    before = i + 1 < n ? -c * byBelow[i + 1]! * inverse : 0;
    upper[i] = before;
  }
}

/**
 * One implicit stage: H − weight·inflow(H) + Q·(X(T) − X₀) = rhs for all cells, by Newton's method and the Thomas
 * algorithm. weight: s; duration: s, of the stage for the reaction. Starts from the enthalpies in `state` and leaves
 * cells, flows and conversions there. Returns false when it does not converge. Source: own.
 */
export function solveStage(state: ColumnState, scratch: StageScratch, weight: number, duration: number): boolean {
  const { enthalpy, inflow, reacts } = state;
  const { rhs, residual, tolerance } = scratch;
  const n = enthalpy.length;
  for (let iteration = 0; iteration < 14; iteration++) {
    evaluateCells(state);
    evaluateFlow(state, scratch);
    for (let i = 0; i < n; i++) residual[i] = enthalpy[i]! - weight * inflow[i]! - rhs[i]!;
    if (reacts) addReaction(state, scratch, duration);
    let worst = 0;
    for (let i = 0; i < n; i++) {
      const r = Math.abs(residual[i]!) / tolerance[i]!;
      // Written so that a NaN is caught and not passed over.
      if (!(r <= worst)) worst = r;
    }
    // At least one solve: guesses accepted unsolved would add up over many small steps.
    if (iteration > 0 && worst < 1e-3) return true;
    if (!(worst < 1e30)) return false;
    factor(state, scratch, weight);
    solveFactored(scratch, residual);
    for (let i = 0; i < n; i++) enthalpy[i] = enthalpy[i]! - residual[i]!;
    scratch.iterations++;
  }
  return false;
}
