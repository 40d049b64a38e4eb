import { row } from "./column-material.ts";
import { reactInStage, type StageReaction } from "./column-reaction.ts";
import type { ColumnState } from "./column-state.ts";

// Bound here once: a constant of this file costs nothing in a loop, one of another file does.
const { ANCHOR, FROM, POTENTIAL, POTENTIAL_SLOPE, ROW, TEMPERATURE, TEMPERATURE_SLOPE, TO } = row;

/** Scratch of the Newton iteration: made once per solve. */
export interface StageWork {
  readonly rhs: Float64Array;
  /** factors of the tridiagonal Jacobian as last used: entries below, reciprocal pivots, multipliers above */
  readonly lower: Float64Array;
  readonly pivot: Float64Array;
  readonly upper: Float64Array;
  readonly delta: Float64Array;
  /** J/m³, what counts as no error in a cell */
  readonly tolerance: Float64Array;
  readonly reaction: StageReaction;
  iterations: number;
}

/** A cell may end so many tolerances beyond the straight piece it was solved on. */
const overshoot = 0.5;
/** Newton's method on the reaction, which is not straight, stops at a last change below so many tolerances. */
const lastChange = 0.05;

/**
 * Assembles H − weight·inflow(H) + Q·(X(T) − X₀) = rhs with its Jacobian and eliminates downwards, in one sweep.
 * Every cell is straight on its piece, so that one solve is exact where no cell leaves its piece.
 */
function eliminate(state: ColumnState, work: StageWork, last: number, weight: number): void {
  const { enthalpy, inverseScale, piece, inverseWidth, face, joints, first } = state;
  const { rows } = state.table;
  const { rhs, lower, pivot, upper, delta, reaction } = work;
  const reacting = state.reacts ? state.grid.layerCount : 0;
  let at = 0;
  while (joints[at] <= first) at++;
  let joint = joints[at];
  let h = 0;
  let t = 0;
  let p = 0;
  let a = 0;
  let b = 0;
  let flowIn = 0;
  let byAbove = 0;
  let byBelow = 0;
  let above = 0;
  let x = 0;
  for (let i = first - 1; i < last; i++) {
    // The cell below, which is the first one in the round before the first cell.
    const next = i + 1;
    const hn = enthalpy[next];
    const scale = inverseScale[next];
    const v = hn * scale;
    let o = piece[next];
    while (v < rows[o + FROM]) o -= ROW;
    while (v >= rows[o + TO]) o += ROW;
    piece[next] = o;
    const d = v - rows[o + ANCHOR];
    const an = rows[o + TEMPERATURE_SLOPE] * scale;
    const bn = rows[o + POTENTIAL_SLOPE] * scale;
    const tn = rows[o + TEMPERATURE] + rows[o + TEMPERATURE_SLOPE] * d;
    const pn = rows[o + POTENTIAL] + rows[o + POTENTIAL_SLOPE] * d;
    let flowOut = 0;
    let down = 0;
    let up = 0;
    if (i >= first) {
      const g = face[next];
      if (next === joint) {
        flowOut = g * (t - tn);
        down = g * a;
        up = g * an;
        joint = joints[++at];
      } else {
        flowOut = g * (p - pn);
        down = g * b;
        up = g * bn;
      }
      const c = weight * inverseWidth[i];
      let residual = h - c * (flowIn - flowOut) - rhs[i];
      let diagonal = 1 + c * (byBelow + down);
      if (i < reacting) {
        reactInStage(reaction, i, t);
        residual += reaction.heat[i] * (reaction.after[i] - reaction.before[i]);
        diagonal += reaction.heat[i] * reaction.slope[i] * a;
      }
      const low = -c * byAbove;
      const inverse = 1 / (diagonal - low * above);
      above = -c * up * inverse;
      x = (residual - low * x) * inverse;
      lower[i] = low;
      pivot[i] = inverse;
      upper[i] = above;
      delta[i] = x;
    }
    flowIn = flowOut;
    byAbove = down;
    byBelow = up;
    h = hn;
    t = tn;
    p = pn;
    a = an;
    b = bn;
  }
}

/** Substitutes upwards and moves the enthalpies. 0: solved; 1: some cell left its piece; 2: numbers ran away. */
function substitute(state: ColumnState, work: StageWork, last: number): 0 | 1 | 2 {
  const { enthalpy, inverseScale, piece, first } = state;
  const { rows } = state.table;
  const { upper, delta, tolerance } = work;
  let x = 0;
  let moved = 0;
  for (let i = last - 1; i >= first; i--) {
    x = delta[i] - upper[i] * x;
    delta[i] = x;
    const h = enthalpy[i] - x;
    enthalpy[i] = h;
    const v = h * inverseScale[i];
    const o = piece[i];
    const out = v < rows[o + FROM] ? rows[o + FROM] - v : v - rows[o + TO];
    if (out > overshoot * tolerance[i]) moved = 1;
  }
  // Written so that a NaN is caught: it spreads upwards to the first cell.
  return Math.abs(x) < 1e30 ? (moved as 0 | 1) : 2;
}

/** Moves the conversions along with the last change of the enthalpies. False: that change was not yet small. */
function settleReaction(state: ColumnState, work: StageWork): boolean {
  const { delta, tolerance, reaction } = work;
  let settled = true;
  for (let i = state.first; i < state.grid.layerCount; i++) {
    if (reaction.slope[i] === 0) continue;
    if (Math.abs(delta[i]) > lastChange * tolerance[i]) settled = false;
    // Taken along the tangent on which H was solved, so that no energy is lost.
    const slope = reaction.slope[i] * state.table.rows[state.piece[i] + TEMPERATURE_SLOPE] * state.inverseScale[i];
    reaction.after[i] = Math.min(1, Math.max(reaction.before[i], reaction.after[i] - slope * delta[i]));
  }
  return settled;
}

/**
 * One implicit stage H − weight·inflow(H) + Q·(X(T) − X₀) = rhs for the cells above `last`, by Newton's method and the
 * Thomas algorithm; the cells from `last` on keep still. weight: s. Starts from the enthalpies in `state` and leaves
 * them, and the conversions, there. False: not solved in 14 iterations. Throws nothing. Source: own.
 */
export function solveStage(state: ColumnState, work: StageWork, last: number, weight: number): boolean {
  const shut = state.face[last];
  state.face[last] = 0;
  let solved = false;
  for (let iteration = 0; iteration < 14 && !solved; iteration++) {
    eliminate(state, work, last, weight);
    const outcome = substitute(state, work, last);
    work.iterations++;
    if (outcome === 2) break;
    solved = (!state.reacts || settleReaction(state, work)) && outcome === 0;
  }
  state.face[last] = shut;
  return solved;
}

/** Largest |J⁻¹·e| in tolerances, J the Jacobian as last factored; `error` is used up. Source: own (Thomas algorithm). */
export function filteredError(state: ColumnState, work: StageWork, last: number, error: Float64Array): number {
  const { lower, upper, pivot, tolerance } = work;
  const { first } = state;
  let y = 0;
  for (let i = first; i < last; i++) {
    y = (error[i] - lower[i] * y) * pivot[i];
    error[i] = y;
  }
  let worst = 0;
  y = 0;
  for (let i = last - 1; i >= first; i--) {
    y = error[i] - upper[i] * y;
    const e = Math.abs(y) / tolerance[i];
    if (e > worst) worst = e;
  }
  return worst;
}
