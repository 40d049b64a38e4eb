import { filteredError, solveStage, type StageWork } from "./column-newton.ts";
import type { PulseEnergy } from "./column-pulse.ts";
import { logRateConstant, reactionAdvance, setStage } from "./column-reaction.ts";
import { row } from "./column-material.ts";
import type { ColumnState } from "./column-state.ts";

// Bound here once: a constant of this file costs nothing in a loop, one of another file does.
const { ANCHOR, FROM, ROW, TEMPERATURE, TEMPERATURE_SLOPE, TO } = row;

/** TR-BDF2 with the γ that gives both stages one Jacobian and makes it L-stable (Bank et al. 1985; Hosea & Shampine 1996). */
export const gamma = 2 - Math.SQRT2;
const stageWeight = gamma / 2;
const quadratureWeight = Math.SQRT2 / 4;
const errorConstant = (-3 * gamma * gamma + 4 * gamma - 2) / (12 * (2 - gamma));

/** What one step starts from and what its stages leave behind. */
export interface StepWork extends StageWork {
  /** at the start of the step: J/m³; W/m³; shares; ln(1/s) */
  readonly enthalpy: Float64Array;
  readonly inflow: Float64Array;
  readonly conversion: Float64Array;
  readonly logRate: Float64Array;
  readonly middleEnthalpy: Float64Array;
  readonly middleInflow: Float64Array;
  readonly error: Float64Array;
  /** J/(m³·s) over the last part of the last step, for the first guess; zero after a kink */
  readonly trend: Float64Array;
}

export function stepWork(state: ColumnState): StepWork {
  const numbers = () => new Float64Array(state.grid.count + 1);
  return {
    rhs: numbers(),
    lower: numbers(),
    pivot: numbers(),
    upper: numbers(),
    delta: numbers(),
    tolerance: numbers(),
    reaction: {
      logRate: state.logRate,
      activation: state.activation,
      heat: state.reactionHeat,
      logBefore: numbers(),
      before: numbers(),
      after: numbers(),
      slope: numbers(),
      duration: 0,
      logLimit: 0,
    },
    iterations: 0,
    enthalpy: numbers(),
    inflow: numbers(),
    conversion: new Float64Array(state.grid.layerCount),
    logRate: numbers(),
    middleEnthalpy: numbers(),
    middleInflow: numbers(),
    error: numbers(),
    trend: numbers(),
  };
}

/** Takes the state as the start of a step. The tolerance is absolute (K) and relative to the heat taken up (1). */
export function startStep(state: ColumnState, work: StepWork, absolute: number, relative: number): void {
  const { capacity, enthalpy, inflow, startEnthalpy, temperature } = state;
  const { tolerance } = work;
  for (let i = state.first; i < state.grid.count; i++) {
    const h = enthalpy[i];
    work.enthalpy[i] = h;
    work.inflow[i] = inflow[i];
    tolerance[i] = absolute * capacity[i] + relative * Math.abs(h - startEnthalpy[i]);
  }
  if (!state.reacts) return;
  work.conversion.set(state.conversion);
  for (let i = state.first; i < state.grid.layerCount; i++) {
    work.logRate[i] = logRateConstant(state.logRate[i], state.activation[i], temperature[i]);
  }
}

/** Begins the second stage of the reaction where the first one ended. */
function handOver(state: ColumnState, work: StepWork): void {
  const { inverseScale, piece } = state;
  const { rows } = state.table;
  const { before, after, logBefore } = work.reaction;
  for (let i = state.first; i < state.grid.layerCount; i++) {
    before[i] = after[i];
    const v = work.middleEnthalpy[i] * inverseScale[i];
    let o = piece[i];
    while (v < rows[o + FROM]) o -= ROW;
    while (v >= rows[o + TO]) o += ROW;
    piece[i] = o;
    const temperature = rows[o + TEMPERATURE] + rows[o + TEMPERATURE_SLOPE] * (v - rows[o + ANCHOR]);
    logBefore[i] = logRateConstant(state.logRate[i], state.activation[i], temperature);
  }
}

/**
 * One step of TR-BDF2 from t over dt, s. Light is added as the energy really delivered, so that none is lost; inflows
 * come from the solved equations, not from the tables, so that none is made. False: no convergence.
 */
export function attemptStep(
  state: ColumnState,
  work: StepWork,
  share: Float64Array,
  pulse: PulseEnergy,
  t: number,
  dt: number,
  last: number,
): boolean {
  const { enthalpy, inflow, first } = state;
  const { rhs, trend, reaction } = work;
  const m = state.reacts ? state.grid.layerCount : 0;
  const delivered = pulse.energyTo(t);
  const half = pulse.energyTo(t + gamma * dt) - delivered;
  const whole = pulse.energyTo(t + dt) - delivered;
  const weight = stageWeight * dt;
  for (let i = first; i < last; i++) {
    rhs[i] = work.enthalpy[i] + weight * work.inflow[i] + share[i] * half;
    enthalpy[i] = work.enthalpy[i] + gamma * dt * trend[i];
  }
  for (let i = last; i < state.grid.count; i++) enthalpy[i] = work.enthalpy[i];
  if (m > 0) {
    reaction.before.set(work.conversion);
    reaction.logBefore.set(work.logRate);
    setStage(reaction, gamma * dt);
  }
  if (!solveStage(state, work, last, weight)) return false;
  const onward = 1 / gamma;
  const inverse = 1 / weight;
  const share2 = quadratureWeight * dt;
  for (let i = first; i < last; i++) {
    const h = enthalpy[i];
    const spent = i < m ? reaction.heat[i] * (reaction.after[i] - reaction.before[i]) : 0;
    const flow = (h + spent - rhs[i]) * inverse;
    work.middleEnthalpy[i] = h;
    work.middleInflow[i] = flow;
    // The reaction of the first stage is already spent: it is part of the balance of the whole step.
    rhs[i] = work.enthalpy[i] + share2 * (work.inflow[i] + flow) + share[i] * whole - spent;
    enthalpy[i] = work.enthalpy[i] + onward * (h - work.enthalpy[i]);
  }
  if (m > 0) {
    handOver(state, work);
    setStage(reaction, (1 - gamma) * dt);
  }
  if (!solveStage(state, work, last, weight)) return false;
  for (let i = first; i < last; i++) {
    const spent = i < m ? reaction.heat[i] * (reaction.after[i] - reaction.before[i]) : 0;
    inflow[i] = (enthalpy[i] + spent - rhs[i]) * inverse;
  }
  return true;
}

/** Conversion that counts as no error in a step, and the largest step of conversion where the material changes with it. */
const conversionTolerance = 1e-3;
const conversionStep = 0.25;

/**
 * Largest error of conversion in tolerances: the two stages against one, whose rate runs straight in its logarithm over
 * the whole step; two straight pieces miss about a quarter of what one misses.
 */
function conversionError(state: ColumnState, work: StepWork, dt: number): number {
  const { logRate, activation, enthalpy, inverseScale, piece } = state;
  const { rows } = state.table;
  let worst = 0;
  for (let i = state.first; i < state.grid.layerCount; i++) {
    const before = work.conversion[i];
    const after = work.reaction.after[i];
    if (after - before < conversionTolerance) continue;
    const o = piece[i];
    const temperature =
      rows[o + TEMPERATURE] + rows[o + TEMPERATURE_SLOPE] * (enthalpy[i] * inverseScale[i] - rows[o + ANCHOR]);
    const end = logRateConstant(logRate[i], activation[i], temperature);
    const single = 1 - (1 - before) * Math.exp(-reactionAdvance(work.logRate[i], end, dt));
    const error = Math.abs(single - after) / (3 * conversionTolerance);
    if (error > worst) worst = error;
    if (state.chars && after - before > worst * conversionStep) worst = (after - before) / conversionStep;
  }
  return worst;
}

/** Largest error of the step in tolerances, from the third difference of the rates, filtered by the Jacobian. */
export function stepError(
  state: ColumnState,
  work: StepWork,
  share: Float64Array,
  pulse: PulseEnergy,
  t: number,
  dt: number,
  last: number,
): number {
  const { inflow, first } = state;
  const { error, middleInflow } = work;
  const a = (2 * errorConstant * dt) / gamma;
  const b = (-2 * errorConstant * dt) / (gamma * (1 - gamma));
  const c = (2 * errorConstant * dt) / (1 - gamma);
  const light =
    pulse.constant || t >= pulse.end
      ? 0
      : a * pulse.power(t) + b * pulse.power(t + gamma * dt) + c * pulse.power(t + dt);
  for (let i = first; i < last; i++) {
    error[i] = a * work.inflow[i] + b * middleInflow[i] + c * inflow[i] + light * share[i];
  }
  const worst = filteredError(state, work, last, error);
  return state.reacts ? Math.max(worst, conversionError(state, work, dt)) : worst;
}

/** Keeps the slope of the last part of an accepted step of dt s for the next first guess. */
export function keepTrend(state: ColumnState, work: StepWork, dt: number, last: number): void {
  const inverse = 1 / ((1 - gamma) * dt);
  for (let i = state.first; i < last; i++) {
    work.trend[i] = (state.enthalpy[i] - work.middleEnthalpy[i]) * inverse;
  }
}
