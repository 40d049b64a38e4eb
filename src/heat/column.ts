import { type PulseEnergy, pulseEnergy } from "./column-pulse.ts";
import { letGasGo, recede } from "./column-recession.ts";
import { type ColumnRecord, columnRecord, recordLeft, recordStep } from "./column-record.ts";
import { type SnapshotRecord, snapshotRecord, takeSnapshots } from "./column-snapshots.ts";
import type { ColumnEnergy, ColumnResult, ColumnSpec } from "./column-spec.ts";
import { type ColumnState, columnState, evaluateCells, evaluateFlow } from "./column-state.ts";
import { attemptStep, gamma, keepTrend, type StepWork, startStep, stepError, stepWork } from "./column-step.ts";
import { type ColumnSurface, columnSurface, followLight, setFaces } from "./column-surface.ts";

/** Where the heat went, J/m². */
function energyOf(state: ColumnState, surface: ColumnSurface, absorbed: number): ColumnEnergy {
  let stored = 0;
  let reaction = surface.reactionGone;
  for (let i = state.first; i < state.grid.count; i++) {
    stored += (state.enthalpy[i] - state.startEnthalpy[i] / state.inverseScale[i]) * state.width[i];
    if (i < state.grid.layerCount) reaction += state.reactionHeat[i] * state.conversion[i] * state.width[i];
  }
  return { absorbed, stored, reaction, carried: surface.carried };
}

/** Cells that heat can have reached by time t (s): six diffusion lengths √(D·t) into the metal. */
function reachedCells(state: ColumnState, from: number, largest: number, t: number): number {
  const { edges, count, layerCount } = state.grid;
  const depth = edges[Math.max(layerCount, state.first)] + 6 * Math.sqrt(largest * t);
  let last = from;
  while (last < count && edges[last] < depth) last++;
  return last;
}

/** Parts of one solve. */
interface Run {
  readonly spec: ColumnSpec;
  readonly state: ColumnState;
  readonly surface: ColumnSurface;
  readonly work: StepWork;
  readonly record: ColumnRecord;
  readonly shots: SnapshotRecord;
  readonly pulse: PulseEnergy;
  /** m²/s, largest diffusivity of the metal; ∞ when the start is not uniform */
  readonly largest: number;
}

/** Steps from the start to the end time; J/m² absorbed, steps taken and steps thrown away. */
function march(run: Run): { absorbed: number; steps: number; rejected: number } {
  const { spec, state, surface, work, record, shots, pulse } = run;
  const { duration } = spec.pulse;
  const knobs = spec.steps ?? {};
  const absolute = knobs.absoluteTolerance ?? 0.5;
  const relative = knobs.relativeTolerance ?? 2e-3;
  const least = knobs.minimumStep ?? duration / 80;
  const fixed = knobs.fixedStep ?? null;
  const longest = knobs.maximumStep ?? Number.POSITIVE_INFINITY;
  const tiny = 1e-9 * spec.endTime;
  let [t, dt, absorbed, steps, rejected] = [0, fixed ?? least, 0, 0, 0];
  let last = 1;
  while (t < spec.endTime - tiny) {
    const inside = t < pulse.end - tiny;
    const stop = inside ? Math.min(pulse.end, spec.endTime) : spec.endTime;
    startStep(state, work, absolute, relative);
    // As heat spreads, what happens in an eightieth of the time since the last of the pulse is no longer seen either.
    const floor = knobs.minimumStep === undefined ? Math.max(least, (t - pulse.end + duration) / 80) : least;
    let landing = false;
    let error = 0;
    let refused = false;
    for (;;) {
      dt = Math.min(fixed ?? dt, longest);
      if (inside && !pulse.constant && fixed === null) dt = Math.min(dt, duration / 8);
      const rest = stop - t;
      landing = dt > rest * (1 - 1e-6);
      // Two even steps to the stop are better than one long and one stump.
      dt = landing ? rest : fixed === null && dt > 0.5 * rest ? 0.5 * rest : dt;
      last = reachedCells(state, last, run.largest, t + dt);
      if (attemptStep(state, work, surface.share, pulse, t, dt, last)) {
        error = fixed === null ? stepError(state, work, surface.share, pulse, t, dt, last) : 0;
        if (error <= 1 || dt <= floor * 1.001 || fixed !== null) break;
        dt = Math.max(floor, dt * Math.max(0.2, 0.85 / Math.cbrt(error)));
      } else {
        if (dt < floor * 1e-6 || fixed !== null) throw new Error(`the heat column did not converge at ${t} s`);
        dt *= 0.25;
        work.trend.fill(0);
      }
      refused = true;
      rejected++;
    }
    if (state.reacts) state.conversion.set(work.reaction.after.subarray(0, state.grid.layerCount));
    keepTrend(state, work, dt, last);
    absorbed += surface.absorbedShare * (pulse.energyTo(t + dt) - pulse.energyTo(t));
    const power = (pulse.energyTo(t + dt) - pulse.energyTo(t + gamma * dt)) / ((1 - gamma) * dt);
    t = landing ? stop : t + dt;
    steps++;
    evaluateCells(state);
    recordStep(record, state, surface, spec, t, power);
    takeSnapshots(shots, state, t);
    const before = dt;
    dt = Math.max(floor, dt * Math.min(refused ? 1 : 2.5, 0.85 / Math.cbrt(Math.max(error, 1e-9))));
    if (landing && inside) {
      dt = Math.max(floor, duration / 50);
      work.trend.fill(0);
    }
    const gone = surface.goneLayer + surface.goneMetal;
    follow(run, t, t < spec.endTime - tiny ? (0.5 * (fixed ?? dt)) / before : 0);
    // The surface moves on by at most half a cell per step, in steps down to a quarter of the floor.
    const left = surface.goneLayer + surface.goneMetal - gone;
    if (left > 0) dt = Math.max(0.25 * floor, Math.min(dt, (before * 0.5 * state.width[state.first]) / left));
  }
  return { absorbed, steps, rejected };
}

/** What an accepted step changed: gas and cells that leave, light, conductances; flows for the next step. */
function follow({ spec, state, surface, record, work }: Run, t: number, ahead: number): void {
  if (state.chars) letGasGo(state, spec, surface, work.conversion, ahead);
  if (spec.recession !== false) {
    const left = recede(state, spec, surface);
    if (left) {
      recordLeft(record, state);
      evaluateCells(state);
    }
  }
  followLight(state, spec, surface, t);
  setFaces(state, spec, surface);
  evaluateFlow(state);
}

/**
 * Heats a column of layers on metal with one pulse and lets it cool.
 *
 * ∂H/∂t = ∂/∂z(k ∂T/∂z) + I(t)·share(z) − Q·dX/dt, dX/dt = A·exp(−E/RT)·(1 − X), both outer faces insulated,
 * perfect contact between layers. Finite volumes; enthalpy H as the unknown with latent heats exact (one sharp
 * temperature each for melting, boiling and ablation); TR-BDF2 with error control; Newton and Thomas inside.
 * A cell whose heat of boiling or ablation is paid leaves, with all above it; light and surface move on. Decomposed
 * material stays, or, with `char`, leaves char behind and its gas carries heat away. A light hook is asked again as the
 * layers thin (`lightStep`). The energy of everything that left is booked (`energy`).
 *
 * Arguments and results: SI, see `ColumnSpec` and `ColumnResult`. Valid where lateral spreading is small (see
 * `lateralFactor`) and 1e-10 s ≤ duration. Limits: vapour takes no light and presses on nothing, boiling has one
 * temperature; conductances where materials meet, and of char, are held over each step; char keeps the room of its layer.
 * Throws `InvalidInput` on a value that cannot be, `Error` when Newton's method fails at the smallest step.
 * Source: own; TR-BDF2: Hosea & Shampine, Appl. Numer. Math. 20 (1996) 21; enthalpy method: Voller & Cross 1981 (from memory).
 */
export function solveColumn(spec: ColumnSpec): ColumnResult {
  const state = columnState(spec);
  const pulse = pulseEnergy(spec.pulse);
  const surface = columnSurface(state, spec);
  evaluateCells(state);
  setFaces(state, spec, surface);
  evaluateFlow(state);
  const work = stepWork(state);
  const record = columnRecord(state, surface, spec);
  const shots = snapshotRecord(state, spec);
  const largest = spec.startProfile ? Number.POSITIVE_INFINITY : state.table.largestDiffusivity;
  const { absorbed, steps, rejected } = march({ spec, state, surface, work, record, shots, pulse, largest });
  const energy = energyOf(state, surface, absorbed);
  const m = state.grid.layerCount;
  return {
    grid: state.grid,
    layerPeak: record.layerPeak,
    topPeak: record.topPeak,
    interfacePeak: record.interfacePeak,
    layerBottomPeak: m > 0 ? record.layerPeak[m - 1] : record.interfacePeak,
    metalSurfacePeak: record.interfacePeak,
    conversion: state.conversion,
    ablated: record.ablated,
    meltDepth: Math.max(record.meltDepth, surface.goneMetal),
    boiledDepth: Math.max(record.boiledDepth, surface.goneMetal),
    recession: surface.goneLayer + surface.goneMetal,
    goneCells: state.first,
    lightUpdates: surface.lightUpdates,
    energy,
    interfaceTime: record.time.subarray(0, record.length),
    interfaceTemperature: record.temperature.subarray(0, record.length),
    timeAbove: record.timeAbove,
    snapshots: shots.taken,
    finalTemperature: state.temperature.slice(0, state.grid.count),
    energyBalanceError:
      absorbed > 0 ? Math.abs(energy.stored + energy.reaction + energy.carried - absorbed) / absorbed : 0,
    steps,
    rejectedSteps: rejected,
    newtonIterations: work.iterations,
  };
}
