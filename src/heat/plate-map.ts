import { loops, type PlateLoops } from "#loops";
import { invalid, requireInRange, requireInteger } from "#units";
import { plateKernel } from "./plate-kernel.ts";
import { axisProfiles, type PlateSpan } from "./plate-list.ts";
import { type PulseRaster, requireRaster } from "./plate-raster.ts";
import { type RasterFineness, rasterList } from "./plate-raster-list.ts";
import type { PlateBody } from "./superposition.ts";

/** Places of a map, rising, m. */
export interface MapPlaces {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** Insulated straight edges of the plate, m; null or left out: endless that way. */
export interface PlateEdges {
  readonly x: PlateSpan | null;
  readonly y: PlateSpan | null;
}

const ENDLESS: PlateEdges = { x: null, y: null };
const STANDARD: RasterFineness = { ageRatio: 1.2, cell: 0.8 };

/**
 * Surface rise over a plate at `time` after the first `count` pulses of a raster: row j, column i at [j·nx + i], K.
 * ΔT = Σ E·2/(π(w² + 8Dt))·exp(−2r²/(w² + 8Dt))·plate(0, t) with the pulses gathered into separable Gaussians by age
 * and place, so that the map is a product of two thin matrices; insulated edges by images on each axis.
 * Units: `PulseRaster`; time s, later than the last pulse. Range: insulated faces, constant properties. Error with the
 * standard fineness: 0.05 K of 251 K on the map of 100,000 pulses (measured). Cost grows with the places and with the
 * logarithm of the passes, not with the pulses. Throws `InvalidInput`.
 * Source: Carslaw & Jaeger, 2nd ed., 10.3; grouping own.
 */
export function rasterMap(
  body: PlateBody,
  raster: PulseRaster,
  count: number,
  time: number,
  places: MapPlaces,
  edges: PlateEdges = ENDLESS,
  fineness: RasterFineness = STANDARD,
  by: PlateLoops = loops().plate,
): Float64Array {
  requireRaster(raster);
  requireInteger("pulses", count, 1);
  const { pulsesPerLine: n, linesPerPass: m, period, lineTime, passTime } = raster;
  const lines = Math.floor((count - 1) / n);
  const pass = Math.floor(lines / m);
  const fell = pass * passTime + (lines - pass * m) * lineTime + (count - 1 - lines * n) * period;
  if (!(time > fell)) invalid("time", time, "s", `must be later than the last pulse, ${fell} s`);
  requireInRange("age ratio", fineness.ageRatio, "", 1.001, 3);
  requireInRange("cell", fineness.cell, "", 0.05, 3);
  requireInside("x", edges.x, (n - 1) * raster.pitch, places.x);
  requireInside("y", edges.y, (Math.min(m, lines + 1) - 1) * raster.lineSpacing, places.y);
  const list = rasterList(plateKernel(body, raster.radius), raster, count, time, fineness);
  const [nx, ny] = [places.x.length, places.y.length];
  const paddedX = Math.ceil(nx / 8) * 8;
  const paddedY = Math.ceil(ny / 2) * 2;
  const along = axisProfiles(list.mx, list.xx, places.x, paddedX, edges.x);
  const down = axisProfiles(list.my, list.yy, places.y, paddedY, edges.y);
  for (let g = 0; g < list.heat.length; g++) {
    for (let j = 0; j < ny; j++) down[g * paddedY + j]! *= list.heat[g]!;
  }
  const map = by.separableMap(along, down, list.heat.length, paddedX, paddedY);
  if (paddedX === nx) return map.subarray(0, nx * ny);
  const cut = new Float64Array(nx * ny);
  for (let j = 0; j < ny; j++) cut.set(map.subarray(j * paddedX, j * paddedX + nx), j * nx);
  return cut;
}

function requireInside(name: string, span: PlateSpan | null, reach: number, places: Float64Array): void {
  for (let i = 1; i < places.length; i++) {
    if (!(places[i]! > places[i - 1]!)) invalid(name, places[i]!, "m", "places must rise");
  }
  if (!span) return;
  if (!(span.low <= 0)) invalid(`lower edge in ${name}`, span.low, "m", "must be at or below 0");
  if (!(span.high >= reach)) invalid(`upper edge in ${name}`, span.high, "m", `must be at or above ${reach} m`);
}
