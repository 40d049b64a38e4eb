import type { MetalSample } from "#terms";
import { type FastBareMetal, type FastReading, fastBareMetal } from "./fast-line.ts";
import { type LineOptions, solveMovingLine } from "./moving-line.ts";
import type { Reading } from "./reading.ts";
import { solvePulse } from "./single-pulse.ts";

/** One case with what both sides say of it. */
export interface Judged {
  readonly metal: string;
  /** m, 1/e² diameter */
  readonly spot: number;
  /** m/s of a line, or null */
  readonly speed: number | null;
  /** s of a pulse, or null */
  readonly duration: number | null;
  /** power over the fast model's melting power */
  readonly over: number;
  readonly referee: Reading & { readonly energyRatio: number };
  /** as `predictPatch` did it when the referee was made: column times lateral factor, column's melt depth */
  readonly columnOnly: FastReading;
  /** with the limit of settled heat joined in */
  readonly fast: FastReading;
  readonly boils: boolean;
  /** v·w/D, or null for a pulse */
  readonly peclet: number | null;
}

/** Largest deviations that count as agreement (the issue's own limits). */
export const PEAK_LIMIT = 0.05;
export const MELT_LIMIT = 0.15;

export const peakAgrees = (referee: Reading, fast: FastReading): boolean =>
  Math.abs(fast.surfaceRise / referee.surfaceRise - 1) <= PEAK_LIMIT;

export const meltAgrees = (referee: Reading, fast: FastReading): boolean =>
  referee.meltDepth === 0 ? fast.meltDepth === 0 : Math.abs(fast.meltDepth / referee.meltDepth - 1) <= MELT_LIMIT;

/**
 * Judge for one metal: puts lines and pulses on bare metal before the referee and the fast model.
 *
 * Lines with the same v·w and the same P/w are one problem (lengths scale with w, times with w²), so each such problem
 * is solved once and read at every spot size. Units: SI. Errors: those of the solvers. Source: own derivation.
 */
export function judgeOf(metal: MetalSample, startTemperature: number, options: LineOptions = {}) {
  const fast: FastBareMetal = fastBareMetal(metal, startTemperature);
  const solved = new Map<string, { radius: number; reading: ReturnType<typeof solveMovingLine> }>();
  const boilingRise = metal.boilingTemperature - startTemperature;
  const line = (spot: number, speed: number, over: number): Judged => {
    const radius = spot / 2;
    const power = over * fast.lineMeltingPower(radius, speed);
    const key = `${(speed * radius).toPrecision(4)}:${over}`;
    let known = solved.get(key);
    if (!known) {
      // A fast spot heats a thin skin behind a steep edge: more cells there, which settle in few sweeps.
      const cells = (speed * radius) / fast.diffusivity > 3 ? 10 : 7;
      const reading = solveMovingLine(
        { metal, spot: { profile: "gaussian", radius }, power, speed, startTemperature },
        { cells, ...options },
      );
      known = { radius, reading };
      solved.set(key, known);
    }
    const scale = radius / known.radius;
    const referee = {
      ...known.reading,
      meltDepth: scale * known.reading.meltDepth,
      meltWidth: scale * known.reading.meltWidth,
    };
    return {
      metal: metal.metalId,
      spot,
      speed,
      duration: null,
      over,
      referee,
      columnOnly: fast.line(power, radius, speed),
      fast: fast.spreadLine(power, radius, speed),
      boils: referee.surfaceRise >= 0.995 * boilingRise,
      peclet: (speed * radius) / fast.diffusivity,
    };
  };
  const pulse = (spot: number, duration: number, over: number): Judged => {
    const radius = spot / 2;
    const energy = over * fast.pulseMeltingEnergy(radius, duration);
    const referee = solvePulse(
      { metal, spot: { profile: "gaussian", radius }, energy, duration, startTemperature },
      { cells: 9, steps: 24 },
    );
    const reading = fast.pulse(energy, radius, duration);
    return {
      metal: metal.metalId,
      spot,
      speed: null,
      duration,
      over,
      referee,
      columnOnly: reading,
      fast: reading,
      boils: referee.surfaceRise >= 0.995 * boilingRise,
      peclet: null,
    };
  };
  return { line, pulse };
}
