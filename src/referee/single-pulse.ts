import { requirePositive } from "#units";
import { coldField, type Field } from "./field.ts";
import { type Axis, axisOf, growingEdges } from "./grid.ts";
import { layeredDepth } from "./depth.ts";
import { type MaterialTable, materialTable, type RefereeLayer, type RefereeMetal } from "./material.ts";
import { heatKept, heatLeaving, type Reading, readField } from "./reading.ts";
import { type Balance, relaxSweep } from "./relax.ts";
import { depthShares, type Spot, spotShares } from "./spot.ts";

/** One square pulse of a spot that stands still on a thick body or a plate. */
export interface PulseCase {
  readonly metal: RefereeMetal;
  readonly layer?: RefereeLayer | null;
  readonly spot: Spot;
  /** J, taken up by the body */
  readonly energy: number;
  /** s */
  readonly duration: number;
  /** K */
  readonly startTemperature: number;
  /** m, plate thickness; left out: as thick as heat reaches */
  readonly thickness?: number;
}

export interface PulseOptions {
  /** cells per spot radius or, where heat spreads less far, cells down the heated skin; default 12 */
  readonly cells?: number;
  /** growth of cell widths; default 1.15 */
  readonly growth?: number;
  /** steps through the pulse; default 30 */
  readonly steps?: number;
  /** s, after the pulse; default 1.5 durations */
  readonly followFor?: number;
}

export interface PulseReading extends Reading {
  /** heat kept and conducted away over heat taken up */
  readonly energyRatio: number;
  readonly cellCount: number;
  readonly steps: number;
}

/** TR-BDF2, as good as its order of two at jumps of the pulse because steps end there (Bank et al. 1985). */
const GAMMA = 2 - Math.SQRT2;

/**
 * One pulse in three dimensions, with melting and boiling: a quarter of the spot, even across x = 0 and y = 0.
 *
 * Equation: ∂H/∂t = ∇²θ(H) + source in finite volumes; TR-BDF2, steps crowded where the power jumps.
 * Units: SI, see the types. Range: values above 0. Errors: `InvalidInput`.
 * Source: enthalpy method, Voller and Cross 1981; own finite volumes.
 */
export function solvePulse(pulse: PulseCase, options: PulseOptions = {}): PulseReading {
  const duration = requirePositive("duration", pulse.duration, "s");
  requirePositive("absorbed energy", pulse.energy, "J");
  const { field, flux, light } = pulseField(pulse, options);
  const times = stepTimes(duration, options.followFor ?? 1.5 * duration, options.steps ?? 30);
  const march = new March(field);
  let [surfaceRise, meltDepth, meltWidth, gone] = [0, 0, 0, 0];
  const dark = new Float64Array(flux.length);
  for (let s = 1; s < times.length; s++) {
    const dt = times[s] - times[s - 1];
    const lit = times[s] <= duration * (1 + 1e-9);
    march.step(dt, lit ? light : null);
    gone += dt * heatLeaving(field);
    const now = readField(field, lit ? flux : dark, pulse.metal.boilingTemperature);
    surfaceRise = Math.max(surfaceRise, now.surfaceRise);
    meltDepth = Math.max(meltDepth, now.meltDepth);
    meltWidth = Math.max(meltWidth, now.meltWidth);
  }
  return {
    surfaceRise,
    meltDepth,
    meltWidth,
    energyRatio: (heatKept(field) + gone) / (pulse.energy / 4),
    cellCount: field.x.width.length * field.y.width.length * field.z.width.length,
    steps: times.length - 1,
  };
}

/** Steps a field through time; light is power per volume of each cell, W/m³. */
export class March {
  readonly #field: Field;
  readonly #before: Float64Array;
  readonly #inflow: Float64Array;
  readonly #own: Float64Array;
  readonly #none: Float64Array;
  /** wall: heat potential W/m that the top is held at, or null for an insulated top */
  readonly #wall: number | null;

  constructor(field: Field, wall: number | null = null) {
    this.#field = field;
    this.#before = new Float64Array(field.enthalpy.length);
    this.#inflow = new Float64Array(field.enthalpy.length);
    this.#own = new Float64Array(field.x.width.length).fill(1);
    this.#none = new Float64Array(field.x.width.length);
    this.#wall = wall;
  }

  /** One step of dt seconds under constant light. */
  step(dt: number, light: Float64Array | null): void {
    const { enthalpy, base } = this.#field;
    const weight = 0.5 * GAMMA * dt;
    this.#before.set(enthalpy);
    this.#conduct();
    for (let c = 0; c < base.length; c++)
      base[c] = this.#before[c] + weight * this.#inflow[c] + (light ? GAMMA * dt * light[c] : 0);
    this.#settle(weight);
    const first = Float64Array.from(this.#inflow);
    this.#conduct();
    const share = (Math.SQRT2 / 4) * dt;
    for (let c = 0; c < base.length; c++)
      base[c] = this.#before[c] + share * (first[c] + this.#inflow[c]) + (light ? dt * light[c] : 0);
    this.#settle(weight);
  }

  #settle(weight: number): void {
    const field = this.#field;
    const balance: Balance = { own: this.#own, upstream: this.#none, farUpstream: this.#none, conduction: weight };
    if (this.#wall !== null) {
      // A held top is a neighbour whose potential never changes.
      const { z, faceZ, base, first, strideX, strideY, x, y } = field;
      const gate = (weight * faceZ[0] * this.#wall) / z.width[0];
      for (let i = 0; i < x.width.length; i++)
        for (let j = 0; j < y.width.length; j++) base[first + i * strideX + j * strideY] += gate;
    }
    const tolerance = 1e-7 * Math.max(field.table.meltTo, field.table.meltFrom);
    for (let sweep = 0; sweep < 2000; sweep++) if (relaxSweep(field, balance, 1.6) < tolerance) return;
  }

  /** Heat that conduction brings each cell, W/m³. */
  #conduct(): void {
    const { x, y, z, potential, temperature, faceX, faceY, faceZ, strideX, strideY, first, layerCells, contact } =
      this.#field;
    const wall = this.#wall ?? 0;
    for (let i = 0; i < x.width.length; i++)
      for (let j = 0; j < y.width.length; j++)
        for (let k = 0; k < z.width.length; k++) {
          const c = first + i * strideX + j * strideY + k;
          const p = potential[c];
          const above = k === 0 ? wall : potential[c - 1];
          let flow =
            (faceX[i] * (potential[c - strideX] - p) + faceX[i + 1] * (potential[c + strideX] - p)) / x.width[i] +
            (faceY[j] * (potential[c - strideY] - p) + faceY[j + 1] * (potential[c + strideY] - p)) / y.width[j] +
            (faceZ[k] * (above - p) + faceZ[k + 1] * (potential[c + 1] - p)) / z.width[k];
          if (layerCells > 0 && k === layerCells)
            flow += (contact * (temperature[c - 1] - temperature[c])) / z.width[k];
          if (layerCells > 0 && k === layerCells - 1)
            flow += (contact * (temperature[c + 1] - temperature[c])) / z.width[k];
          this.#inflow[c] = flow;
        }
  }
}

/** m²/s, largest diffusivity of a metal's table. */
export function largestDiffusivity(table: MaterialTable): number {
  let largest = 0;
  for (let p = 0; p < table.layerPiece; p++) largest = Math.max(largest, table.potentialSlope[p]);
  return largest;
}

function pulseField(pulse: PulseCase, options: PulseOptions) {
  const layer = pulse.layer ?? null;
  const table = materialTable(pulse.metal, layer, pulse.startTemperature);
  const radius = requirePositive("radius", pulse.spot.radius, "m");
  const cells = options.cells ?? 12;
  const growth = options.growth ?? 1.15;
  const skin = Math.sqrt(largestDiffusivity(table) * pulse.duration);
  const spread = 6 * Math.sqrt(1 + (options.followFor ?? 1.5 * pulse.duration) / pulse.duration) * skin;
  const across = (): Axis => axisOf(growingEdges(radius / cells, 1.2 * radius, growth, 1.8 * radius + spread));
  const depth = layeredDepth(
    layer,
    (0.4 * Math.min(skin, radius)) / cells,
    skin,
    growth,
    pulse.thickness ?? null,
    spread,
  );
  const [x, y] = [across(), across()];
  const outer = { front: null, back: null, side: null, bottom: null };
  const field = coldField({ x, y, z: depth.axis }, table, outer, depth.contact(pulse.metal, pulse.startTemperature));
  const shares = spotShares(pulse.spot, x, y);
  const byDepth = depthShares(depth.axis, field.layerCells, layer?.absorption ?? 0);
  const light = new Float64Array(field.enthalpy.length);
  const flux = new Float64Array(shares.length);
  for (let i = 0; i < x.width.length; i++)
    for (let j = 0; j < y.width.length; j++) {
      const at = i * y.width.length + j;
      const incident = (shares[at] * pulse.energy) / (pulse.duration * x.width[i] * y.width[j]);
      flux[at] = incident * byDepth[field.layerCells];
      for (let k = 0; k <= field.layerCells; k++)
        light[field.first + i * field.strideX + j * field.strideY + k] = (incident * byDepth[k]) / depth.axis.width[k];
    }
  return { field, flux, light };
}

/** Steps crowded by squares behind both jumps of the power. */
export function stepTimes(duration: number, follow: number, steps: number): Float64Array {
  const times: number[] = [0];
  for (let i = 1; i <= steps; i++) times.push(duration * (i / steps) ** 2);
  const after = Math.ceil(steps * 0.8);
  for (let i = 1; i <= after; i++) times.push(duration + follow * (i / after) ** 2);
  return Float64Array.from(times);
}
