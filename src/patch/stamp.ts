import { normalCdf } from "#numerics";
import { PointHistory } from "./point.ts";
import { CLASS_COUNT, type PointSpec } from "./point-spec.ts";
import type { RasterCell } from "./raster.ts";

/** What one draw leaves at the sample points of a raster cell. */
export interface Stamped {
  /** share of the area with more than the residue thickness left */
  readonly residue: number;
  /** J/m², highest fluence that met bare metal, by share of area: ascending quantile classes over points and adhesion */
  readonly bareFluence: Float64Array;
  /** K, highest linear rise of metal under remaining layer, per point */
  readonly coveredRise: Float64Array;
  /** share of points cleaned by eating from above, and of points where the stress route led */
  readonly eatenShare: number;
  readonly stressShare: number;
  /** mean number of events per point with at least half of the peak fluence */
  readonly strongEvents: number;
}

export interface StampSpec extends Omit<PointSpec, "multiplicity"> {
  readonly cell: RasterCell;
  /** m, 1/e² radius or flat radius */
  readonly radius: number;
}

/**
 * Stamps the events of all passes on the sample points of a raster cell, in time order: `PointHistory` at each.
 *
 * Units: as in `StampSpec`. Range: passes a whole number from 1. Errors: none. Source: own derivation.
 */
export function stamp(spec: StampSpec): Stamped {
  const { cell, radius, thickness, residueThickness } = spec;
  const inverse = 1 / (radius * radius);
  const point = new PointHistory({ ...spec, multiplicity: cell.multiplicity });
  const bareFluence = new Float64Array(cell.points.length * CLASS_COUNT);
  const coveredRise = new Float64Array(cell.points.length);
  let residue = 0;
  let eatenPoints = 0;
  let stressPoints = 0;
  let strong = 0;
  for (let p = 0; p < cell.points.length; p++) {
    point.run(cell.points[p], cell.lineStarts[p], inverse);
    if (point.left + point.char > residueThickness && !point.letGo) residue += 1 - normalCdf(point.freed);
    // The last thin skin usually lets go as a whole; what took off most of the layer names the way.
    if (point.eatenFirst || (point.open > 0 && point.left < 0.5 * thickness)) eatenPoints++;
    else if (point.open > 0 && point.bestByStress) stressPoints++;
    strong += point.strong;
    coveredRise[p] = point.covered;
    bareFluence.set(point.after, p * CLASS_COUNT);
  }
  const n = cell.points.length;
  return {
    residue: residue / n,
    bareFluence,
    coveredRise,
    eatenShare: eatenPoints / n,
    stressShare: stressPoints / n,
    strongEvents: strong / n,
  };
}
