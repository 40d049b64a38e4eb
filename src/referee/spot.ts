import { erf } from "#numerics";
import type { Axis } from "./grid.ts";

/** Light of a round spot on the top faces. */
export interface Spot {
  readonly profile: "gaussian" | "flat-top";
  /** m, 1/e² radius or edge of the flat top */
  readonly radius: number;
}

/** Slices of a cell along x over which a flat top's chord is summed. */
const SLICES = 32;

/**
 * Share of the spot's whole power that falls on each top cell, row by row along x, the spot's middle at x = y = 0.
 *
 * Equation: Gaussian product of ½·[erf(√2·x/w)] over the cell's edges; flat top chords over πr².
 * Units: axes m; result 1, adding up to the share of the spot on the grid (a half where y starts at its middle).
 * Range: radius above 0. Errors: none. Source: beam profiles of ISO 11146.
 */
export function spotShares(spot: Spot, x: Axis, y: Axis): Float64Array {
  const [nx, ny] = [x.width.length, y.width.length];
  const shares = new Float64Array(nx * ny);
  const { radius } = spot;
  const running = (at: number) => 0.5 * erf((Math.SQRT2 * at) / radius);
  for (let i = 0; i < nx; i++)
    for (let j = 0; j < ny; j++) {
      const [x0, x1, y0, y1] = [x.edge[i], x.edge[i + 1], y.edge[j], y.edge[j + 1]];
      let share = 0;
      if (spot.profile === "gaussian") share = (running(x1) - running(x0)) * (running(y1) - running(y0));
      else
        for (let m = 0; m < SLICES; m++) {
          const at = x0 + ((m + 0.5) / SLICES) * (x1 - x0);
          const half = Math.sqrt(Math.max(0, radius * radius - at * at));
          const chord = Math.max(0, Math.min(y1, half) - Math.max(y0, -half));
          share += (chord * (x1 - x0)) / SLICES / (Math.PI * radius * radius);
        }
      shares[i * ny + j] = share;
    }
  return shares;
}

/**
 * Share of the light taken up in each cell along z by a layer that absorbs by Beer-Lambert, the rest by the first cell
 * of the metal below it. Units: absorption 1/m, edges m; result 1, adding up to 1. Source: Beer and Lambert.
 */
export function depthShares(z: Axis, layerCells: number, absorption: number): Float64Array {
  const shares = new Float64Array(layerCells + 1);
  for (let k = 0; k < layerCells; k++)
    shares[k] = Math.exp(-absorption * z.edge[k]) - Math.exp(-absorption * z.edge[k + 1]);
  shares[layerCells] = layerCells === 0 ? 1 : Math.exp(-absorption * z.edge[layerCells]);
  return shares;
}
