import { interpolateLinear } from "#numerics";
import type { MetalSample } from "#terms";
import { ROOM } from "./room.ts";

/** Constant properties that stand for the tables of a metal between room temperature and its melting point. */
export interface EffectiveMetal {
  /** W/(m·K) */
  readonly conductivity: number;
  /** J/(m³·K) */
  readonly volumetricHeat: number;
  /** m²/s */
  readonly diffusivity: number;
}

const POINTS = 9;

/**
 * Mean conductivity and volumetric heat of a metal between 293 K and its melting point.
 *
 * Equation: arithmetic means of k(T) and ρ·c(T) over nine evenly spaced temperatures.
 * Units: tables in K, W/(m·K), J/(kg·K); result as in `EffectiveMetal`.
 * Range: melting point above 293 K. Errors: none. Source: own derivation; `metalResponse` corrects what it leaves out.
 */
export function effectiveMetal(metal: MetalSample): EffectiveMetal {
  let k = 0;
  let c = 0;
  for (let i = 0; i < POINTS; i++) {
    const t = ROOM + ((metal.meltingTemperature - 1 - ROOM) * i) / (POINTS - 1);
    k += interpolateLinear(metal.temperature, metal.conductivity, t) / POINTS;
    c += interpolateLinear(metal.temperature, metal.heatCapacity, t) / POINTS;
  }
  const volumetricHeat = metal.density * c;
  return { conductivity: k, volumetricHeat, diffusivity: k / volumetricHeat };
}
