import { settledRise, spreadMeltDepth, spreadRise } from "#heat";
import type { MetalSample } from "#terms";
import type { MetalResponse } from "./metal-response.ts";

/** How a line's heat spreads sideways. */
export interface SpreadLine {
  /** 1, how much of the column's linear rise is left (`lateralFactorFrom`) */
  readonly lateralFactor: number;
  /** m, 1/e² radius */
  readonly radius: number;
  /** W/(m·K), the constant conductivity that the linear rise was computed with */
  readonly meanConductivity: number;
}

/**
 * The answer of a bare metal to a passing Gaussian spot whose heat also runs sideways: between the column, which pays
 * for stored and latent heat, and the settled heat around a slow spot, which does not.
 *
 * Equation: `spreadRise`, `settledRise`, `spreadMeltDepth`; melting begins where the spread rise reaches it, the melt
 * depth counts power over the column's onset.
 * Units: as in `MetalResponse`; linear rises as seen by the surface, lateral factor included. Range: as docs/referee.md
 * (Péclet numbers 0.05 to 250, up to 3 times the melting power). Errors: none.
 * Source: docs/referee.md: peak rise within 5 %, melt depth within 15 % but for the cases that `lateralCaveat` names.
 */
export function spreadResponse(column: MetalResponse, metal: MetalSample, line: SpreadLine): MetalResponse {
  const { lateralFactor, radius, meanConductivity } = line;
  const rise = (linearRise: number, start: number): number =>
    spreadRise(column.rise(linearRise, start), settledRise(metal, meanConductivity, linearRise, start), lateralFactor);
  // A patch asks again and again from one start.
  let onsetFor = Number.NaN;
  let onset = 0;
  let columnOnset = 0;
  const meltOnset = (start: number): number => {
    if (start === onsetFor) return onset;
    onsetFor = start;
    columnOnset = column.meltOnset(start);
    const want = (metal.meltingTemperature - start) * (1 - 1e-9);
    onset = smallest((x) => rise(x, start) >= want, 0.3 * columnOnset, 3 * columnOnset);
    return onset;
  };
  const meltDepth = (linearRise: number, start: number, duration: number, diffusivity: number): number =>
    linearRise < meltOnset(start)
      ? 0
      : spreadMeltDepth(column.meltDepth(linearRise, start, duration, diffusivity), radius, linearRise / columnOnset);
  return {
    rise,
    meltOnset,
    meltDepth,
    riseForMeltDepth: (depth, start, duration, diffusivity) =>
      smallest((x) => meltDepth(x, start, duration, diffusivity) >= depth, meltOnset(start), 60 * columnOnset),
  };
}

/** Smallest x between two limits for which a rising condition holds, to 1e-6 of the span. */
function smallest(holds: (x: number) => boolean, from: number, to: number): number {
  let low = from;
  let high = to;
  for (let i = 0; i < 20; i++) {
    const middle = (low + high) / 2;
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return high;
}
