import { linearColumn, solveColumn } from "#heat";
import type { MetalSample } from "#terms";
import { effectiveMetal } from "./effective-metal.ts";
import type { ResponseTable } from "./metal-response.ts";
import { ROOM } from "./room.ts";

const V = [
  0, 0.2, 0.4, 0.6, 0.75, 0.85, 0.9, 0.94, 0.97, 1, 1.03, 1.06, 1.1, 1.15, 1.22, 1.3, 1.42, 1.6, 1.85, 2.2, 2.7, 3.5, 5,
  8,
];
const STARTS = [0, 0.35, 0.65, 0.88, 0.98];
/** s: by similarity any duration serves; this one keeps the grid of the column in its usual range. */
const SQUARE_DURATION = 100e-9;
const GAUSSIAN_DURATION = 1e-3;
const FWHM_OF_WIDTH = Math.sqrt(Math.LN2 / 2);

/**
 * Solves the full column for bare metal at a ladder of heat loads and starting temperatures and tabulates what the
 * linear column leaves out: temperature-dependent properties, latent heats.
 *
 * Units: as in `ResponseTable`; the metal's own SI tables. Range: loads up to 8 times the linear melting load, then in proportion.
 * Errors: none of its own. Source: `solveColumn`; similarity in √(D·t), own derivation.
 */
export function responseTable(metal: MetalSample, shape: "square" | "gaussian"): ResponseTable {
  const effective = effectiveMetal(metal);
  const duration = shape === "square" ? SQUARE_DURATION : GAUSSIAN_DURATION;
  const linear = linearColumn({
    layers: [],
    edges: new Float64Array([0]),
    absorbed: new Float64Array(0),
    metalAbsorbed: 1,
    metalConductivity: effective.conductivity,
    metalVolumetricHeat: effective.volumetricHeat,
    metalThickness: 1,
    duration,
    shape,
    followFor: duration,
  }).metalPeak;
  const toMelt = metal.meltingTemperature - ROOM;
  const width = shape === "square" ? duration : FWHM_OF_WIDTH * duration;
  const peak: Float64Array[] = [];
  const melt: Float64Array[] = [];
  for (const s of STARTS) {
    const start = ROOM + s * toMelt;
    const row = V.map((v) => {
      if (v <= s) return { peak: v, melt: 0 };
      const result = solveColumn({
        layers: [],
        metal: { ...metal, thickness: 1 },
        light: { layerShares: new Float64Array(0), metalShare: 1 },
        pulse: { fluence: ((v - s) * toMelt) / linear, duration: width, shape },
        startTemperature: start,
        endTime: shape === "square" ? 2.5 * width : 4.5 * width,
      });
      return {
        peak: (result.metalSurfacePeak - ROOM) / toMelt,
        melt: result.meltDepth / Math.sqrt(effective.diffusivity * duration),
      };
    });
    peak.push(monotone(row.map((r) => r.peak)));
    melt.push(monotone(row.map((r) => r.melt)));
  }
  return {
    meltingTemperature: metal.meltingTemperature,
    starts: Float64Array.from(STARTS),
    v: Float64Array.from(V),
    peak,
    melt,
  };
}

/** More heat never cools: solver noise of a fraction of a kelvin is flattened so that the table can be inverted. */
function monotone(values: readonly number[]): Float64Array {
  const result = Float64Array.from(values);
  for (let i = 1; i < result.length; i++) result[i] = Math.max(result[i], result[i - 1]);
  return result;
}
