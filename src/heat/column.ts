import { type PulseEnergy, pulseEnergy } from "./column-pulse.ts";
import { logRateConstant, reactionAdvance } from "./column-reaction.ts";
import { columnRecord, recordStep } from "./column-record.ts";
import type { ColumnResult, ColumnSpec } from "./column-spec.ts";
import {
  evaluateCells,
  evaluateFlow,
  type StageScratch,
  solveFactored,
  solveStage,
  stageScratch,
} from "./column-stage.ts";
import { type ColumnState, columnState, setInterface } from "./column-state.ts";

/** TR-BDF2 with the γ that gives both stages one Jacobian and makes it L-stable (Bank et al. 1985; Hosea & Shampine 1996). */
const gamma = 2 - Math.SQRT2;
const stageWeight = gamma / 2;
const quadratureWeight = Math.SQRT2 / 4;
const errorConstant = (-3 * gamma * gamma + 4 * gamma - 2) / (12 * (2 - gamma));

/** What one step starts from and what its stages leave behind. */
interface StepMemory {
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

function setLogRates(state: ColumnState, into: Float64Array): void {
  for (let i = 0; i < state.grid.layerCount; i++) {
    into[i] = logRateConstant(state.logRate[i]!, state.activation[i]!, state.temperature[i]!);
  }
}

/** One step from t over dt. Light is added as the energy really delivered, so that none is lost. False: no convergence. */
function attempt(
  state: ColumnState,
  scratch: StageScratch,
  memory: StepMemory,
  pulse: PulseEnergy,
  t: number,
  dt: number,
): boolean {
  const { enthalpy, inflow, share } = state;
  const { rhs } = scratch;
  const n = enthalpy.length;
  const start = pulse.energyTo(t);
  const first = pulse.energyTo(t + gamma * dt) - start;
  const whole = pulse.energyTo(t + dt) - start;
  const weight = stageWeight * dt;
  for (let i = 0; i < n; i++) {
    rhs[i] = memory.enthalpy[i]! + weight * memory.inflow[i]! + share[i]! * first;
    enthalpy[i] = memory.enthalpy[i]! + gamma * dt * memory.trend[i]!;
  }
  scratch.conversionBefore.set(memory.conversion);
  scratch.logBefore.set(memory.logRate);
  if (!solveStage(state, scratch, weight, gamma * dt)) return false;
  memory.middleEnthalpy.set(enthalpy);
  memory.middleInflow.set(inflow);
  if (state.reacts) {
    setLogRates(state, scratch.logBefore);
    scratch.conversionBefore.set(scratch.conversionAfter);
  }
  const onward = (1 - gamma) / gamma;
  for (let i = 0; i < n; i++) {
    // The reaction of the first stage is already spent: it is part of the balance of the whole step.
    const spent =
      i < state.grid.layerCount ? state.reactionHeat[i]! * (scratch.conversionBefore[i]! - memory.conversion[i]!) : 0;
    rhs[i] = memory.enthalpy[i]! + quadratureWeight * dt * (memory.inflow[i]! + inflow[i]!) + share[i]! * whole - spent;
    enthalpy[i] = enthalpy[i]! + onward * (enthalpy[i]! - memory.enthalpy[i]!);
  }
  return solveStage(state, scratch, weight, (1 - gamma) * dt);
}

/** Conversion that counts as no error in a step. */
const conversionTolerance = 1e-3;

/**
 * Largest error of conversion in tolerances: the two stages against one, whose rate runs straight in its logarithm over
 * the whole step; two straight pieces miss about a quarter of what one misses.
 */
function conversionError(state: ColumnState, scratch: StageScratch, memory: StepMemory, dt: number): number {
  const { logRate, activation, temperature } = state;
  let worst = 0;
  for (let i = 0; i < state.grid.layerCount; i++) {
    const before = memory.conversion[i]!;
    const after = scratch.conversionAfter[i]!;
    if (after - before < conversionTolerance) continue;
    const end = logRateConstant(logRate[i]!, activation[i]!, temperature[i]!);
    const single = 1 - (1 - before) * Math.exp(-reactionAdvance(memory.logRate[i]!, end, dt));
    worst = Math.max(worst, Math.abs(single - after) / (3 * conversionTolerance));
  }
  return worst;
}

/** Largest error of the step in tolerances, from the third difference of the rates, filtered by the Jacobian. */
function stepError(
  state: ColumnState,
  scratch: StageScratch,
  memory: StepMemory,
  pulse: PulseEnergy,
  t: number,
  dt: number,
): number {
  const { inflow, share } = state;
  const a = (2 * errorConstant * dt) / gamma;
  const b = (-2 * errorConstant * dt) / (gamma * (1 - gamma));
  const c = (2 * errorConstant * dt) / (1 - gamma);
  const light =
    pulse.constant || t >= pulse.end
      ? 0
      : a * pulse.power(t) + b * pulse.power(t + gamma * dt) + c * pulse.power(t + dt);
  const { error } = memory;
  for (let i = 0; i < error.length; i++) {
    error[i] = a * memory.inflow[i]! + b * memory.middleInflow[i]! + c * inflow[i]! + light * share[i]!;
  }
  solveFactored(scratch, error);
  let worst = 0;
  for (let i = 0; i < error.length; i++) {
    const e = Math.abs(error[i]!) / scratch.tolerance[i]!;
    if (e > worst) worst = e;
  }
  return state.reacts ? Math.max(worst, conversionError(state, scratch, memory, dt)) : worst;
}

function setTolerance(
  state: ColumnState,
  scratch: StageScratch,
  first: Float64Array,
  absolute: number,
  relative: number,
): void {
  for (let i = 0; i < first.length; i++) {
    scratch.tolerance[i] = absolute * state.capacity[i]! + relative * Math.abs(state.enthalpy[i]! - first[i]!);
  }
}

/** J/m² in the column above its start: heat stored plus heat of reaction. */
function heatTaken(state: ColumnState, first: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < first.length; i++) {
    const reaction = i < state.grid.layerCount ? state.reactionHeat[i]! * state.conversion[i]! : 0;
    sum += (state.enthalpy[i]! - first[i]! + reaction) * state.width[i]!;
  }
  return sum;
}

/**
 * Heats a column of layers on metal with one pulse and lets it cool.
 *
 * ∂H/∂t = ∂/∂z(k ∂T/∂z) + I(t)·share(z) − Q·dX/dt, dX/dt = A·exp(−E/RT)·(1 − X), both outer faces insulated,
 * perfect contact between layers. Finite volumes; enthalpy H as the unknown with latent heats exact (one sharp
 * temperature each for melting, boiling and ablation); TR-BDF2 with error control; Newton and Thomas inside.
 *
 * Arguments and results: SI, see `ColumnSpec` and `ColumnResult`. Valid where lateral spreading is small (see
 * `lateralFactor`) and 1e-10 s ≤ duration. Limits: boiled and ablated material stays in place (it holds at its plateau
 * until its latent heat is paid, then heats on), so beyond first boiling depths are upper and later temperatures
 * nominal; the metal's share of conductance at the interface is held over each step; light does not follow conversion.
 * Throws `InvalidInput` on a value that cannot be, `Error` when Newton's method fails at the smallest step.
 * Source: own; TR-BDF2: Hosea & Shampine, Appl. Numer. Math. 20 (1996) 21; enthalpy method: Voller & Cross 1981 (from memory).
 */
export function solveColumn(spec: ColumnSpec): ColumnResult {
  const state = columnState(spec);
  const pulse = pulseEnergy(spec.pulse);
  const n = state.grid.count;
  const m = state.grid.layerCount;
  const scratch = stageScratch(n);
  const numbers = () => new Float64Array(n);
  const memory: StepMemory = {
    enthalpy: numbers(),
    inflow: numbers(),
    conversion: numbers(),
    logRate: numbers(),
    middleEnthalpy: numbers(),
    middleInflow: numbers(),
    error: numbers(),
    trend: numbers(),
  };
  const { duration } = spec.pulse;
  const knobs = spec.steps ?? {};
  const absolute = knobs.absoluteTolerance ?? 0.5;
  const relative = knobs.relativeTolerance ?? 2e-3;
  const least = knobs.minimumStep ?? duration / 100;
  const fixed = knobs.fixedStep ?? null;
  const first = Float64Array.from(state.enthalpy);
  evaluateCells(state);
  evaluateFlow(state, scratch);
  const record = columnRecord(state, spec);
  let t = 0;
  let dt = fixed ?? least;
  let steps = 0;
  let rejected = 0;
  const tiny = 1e-9 * spec.endTime;
  while (t < spec.endTime - tiny) {
    const inside = t < pulse.end - tiny;
    const stop = inside ? Math.min(pulse.end, spec.endTime) : spec.endTime;
    setInterface(state, spec);
    memory.enthalpy.set(state.enthalpy);
    memory.inflow.set(state.inflow);
    memory.conversion.set(state.conversion);
    if (state.reacts) setLogRates(state, memory.logRate);
    setTolerance(state, scratch, first, absolute, relative);
    // As heat spreads, what happens in a hundredth of the time since the start is no longer seen either.
    const floor = knobs.minimumStep === undefined ? Math.max(least, t / 100) : least;
    let landing = false;
    let error = 0;
    for (;;) {
      dt = Math.min(fixed ?? dt, knobs.maximumStep ?? Number.POSITIVE_INFINITY);
      if (inside && !pulse.constant && fixed === null) dt = Math.min(dt, duration / 8);
      const rest = stop - t;
      landing = dt > rest * (1 - 1e-6);
      // Two even steps to the stop are better than one long and one stump.
      dt = landing ? rest : fixed === null && dt > 0.5 * rest ? 0.5 * rest : dt;
      if (attempt(state, scratch, memory, pulse, t, dt)) {
        error = fixed === null ? stepError(state, scratch, memory, pulse, t, dt) : 0;
        if (error <= 1 || dt <= floor * 1.001 || fixed !== null) break;
        dt = Math.max(floor, dt * Math.max(0.2, 0.85 / Math.cbrt(error)));
      } else {
        if (dt < floor * 1e-6 || fixed !== null) throw new Error(`the heat column did not converge at ${t} s`);
        dt *= 0.25;
        memory.trend.fill(0);
      }
      rejected++;
    }
    if (state.reacts) state.conversion.set(scratch.conversionAfter.subarray(0, m));
    for (let i = 0; i < n; i++) {
      memory.trend[i] = (state.enthalpy[i]! - memory.middleEnthalpy[i]!) / ((1 - gamma) * dt);
    }
    const power = (pulse.energyTo(t + dt) - pulse.energyTo(t + gamma * dt)) / ((1 - gamma) * dt);
    t = landing ? stop : t + dt;
    steps++;
    recordStep(record, state, spec, t, power);
    dt = Math.max(floor, dt * Math.min(2.5, 0.85 / Math.cbrt(Math.max(error, 1e-9))));
    if (landing && inside) {
      dt = Math.max(floor, duration / 50);
      memory.trend.fill(0);
    }
  }
  const absorbed =
    pulse.energyTo(spec.endTime) *
    (state.light.layerShares.reduce((a, b) => a + b, 0) + state.light.metalShare + (state.light.topShare ?? 0));
  const taken = heatTaken(state, first);
  return {
    grid: state.grid,
    layerPeak: record.layerPeak,
    topPeak: record.topPeak,
    interfacePeak: record.interfacePeak,
    layerBottomPeak: m > 0 ? record.layerPeak[m - 1]! : record.interfacePeak,
    metalSurfacePeak: record.interfacePeak,
    conversion: state.conversion,
    ablated: record.ablated,
    meltDepth: record.meltDepth,
    boiledDepth: record.boiledDepth,
    interfaceTime: record.time.subarray(0, record.length),
    interfaceTemperature: record.temperature.subarray(0, record.length),
    timeAbove: record.timeAbove,
    finalTemperature: Float64Array.from(state.temperature),
    energyBalanceError: absorbed > 0 ? Math.abs(taken - absorbed) / absorbed : 0,
    steps,
    rejectedSteps: rejected,
    newtonIterations: scratch.iterations,
  };
}
