import type { Field } from "./field.ts";
import type { Axis } from "./grid.ts";
import { type MaterialTable, temperatureAtPotential } from "./material.ts";

/** What is read from a field at one instant (or of a steady crest). SI. */
export interface Reading {
  /** K above the start, hottest place of the metal's surface; where it boils, up to boiling */
  readonly surfaceRise: number;
  /** m, deepest place of the melting isotherm, drawn out from both sides of the front, so finer than a cell */
  readonly meltDepth: number;
  /** m, whole width of the molten surface */
  readonly meltWidth: number;
}

/**
 * Reads hottest surface, melt depth and melt width; `flux` is what the metal's surface takes up per top cell, W/m².
 * Values between the middles of cells come from parabolas along x and from evenness across y = 0.
 */
export function readField(field: Field, flux: Float64Array, boilingTemperature: number): Reading {
  const { x, y, z, table, potential, temperature, strideX, strideY, first, layerCells, contact } = field;
  const [nx, ny] = [x.width.length, y.width.length];
  const half = 0.5 * z.width[layerCells];
  const melting = meltingPotential(table);
  const rise = new Float64Array(nx);
  const melt = new Float64Array(nx);
  const column = new Float64Array(z.width.length - layerCells + 1);
  const row = new Float64Array(ny);
  const depths = Float64Array.from(column, (_, k) => (k === 0 ? 0 : z.middle[layerCells + k - 1] - z.edge[layerCells]));
  let meltWidth = 0;
  for (let i = 0; i < nx; i++) {
    const top = first + i * strideX + layerCells;
    for (let j = 0; j < ny; j++) {
      const c = top + j * strideY;
      const fromLayer = layerCells > 0 ? contact * (temperature[c - 1] - temperature[c]) : 0;
      row[j] = potential[c] + half * (flux[i * ny + j] + fromLayer) - melting;
    }
    const depthAt = (j: number): number => {
      if (row[j] <= 0) return 0;
      column[0] = row[j];
      for (let k = 1; k < column.length; k++) column[k] = potential[top + j * strideY + k - 1] - melting;
      return front(depths, column);
    };
    const surface = atMiddle(row[0], row[1], y.width[0], y.width[1]) + melting;
    rise[i] = Math.min(temperatureAtPotential(table, surface), boilingTemperature) - table.startTemperature;
    const [m0, m1] = [depthAt(0), depthAt(1)];
    melt[i] = m1 > 0 ? atMiddle(m0, m1, y.width[0], y.width[1]) : m0;
    if (row[0] > 0) meltWidth = Math.max(meltWidth, 2 * front(y.middle, row));
  }
  return { surfaceRise: crest(x, rise), meltDepth: crest(x, melt), meltWidth };
}

/** W/m, heat potential of melting above the start. */
function meltingPotential(table: MaterialTable): number {
  let piece = 0;
  while (table.start[piece] < table.meltFrom) piece++;
  return table.potential[piece];
}

/**
 * Place where values that begin above 0 cross it. Cells that are just melting hold the value 0 whatever lies in them,
 * so the lines are drawn from the two hot places before and the two cold ones after them, and their mean is taken.
 */
function front(at: Float64Array, value: Float64Array): number {
  let hot = 0;
  while (hot + 1 < value.length && value[hot + 1] > 0) hot++;
  let cold = hot + 1;
  while (cold < value.length && value[cold] === 0) cold++;
  if (cold >= value.length) return at[value.length - 1];
  const held = cold - hot > 1;
  if (!held) return at[hot] + ((at[cold] - at[hot]) * value[hot]) / (value[hot] - value[cold]);
  const within = (place: number) => Math.min(at[cold], Math.max(at[hot], place));
  const fromHot =
    hot === 0 ? at[1] : within(at[hot] + ((at[hot] - at[hot - 1]) * value[hot]) / (value[hot - 1] - value[hot]));
  const fromCold =
    cold + 1 === value.length
      ? fromHot
      : within(at[cold] + ((at[cold + 1] - at[cold]) * value[cold]) / (value[cold] - value[cold + 1]));
  return hot === 0 ? fromCold : 0.5 * (fromHot + fromCold);
}

/** Beyond this drop from one cell to the next there is a rim, and a parabola across it would invent heat. */
const RIM = 0.15;

/** Value on the plane of symmetry of an even parabola through the middles of the first two cells. */
function atMiddle(a: number, b: number, widthA: number, widthB: number): number {
  if (Math.abs(a - b) > RIM * Math.abs(a)) return a;
  const y0 = 0.5 * widthA;
  const y1 = widthA + 0.5 * widthB;
  return a + ((a - b) * y0 * y0) / (y1 * y1 - y0 * y0);
}

/** Highest value of the parabola through the largest entry and its neighbours; even where the axis begins there. */
function crest(axis: Axis, values: Float64Array): number {
  let top = 0;
  for (let i = 1; i < values.length; i++) if (values[i] > values[top]) top = i;
  if (top === 0) return atMiddle(values[0], values[1], axis.width[0], axis.width[1]);
  if (top === values.length - 1) return values[top];
  const at = axis.middle;
  const low = Math.min(values[top - 1], values[top + 1]);
  if (values[top] - low > RIM * values[top]) return values[top];
  const [h0, h1] = [at[top] - at[top - 1], at[top + 1] - at[top]];
  const d0 = (values[top] - values[top - 1]) / h0;
  const d1 = (values[top + 1] - values[top]) / h1;
  const curve = (d1 - d0) / (h0 + h1);
  if (curve >= 0) return values[top];
  const slope = (d0 * h1 + d1 * h0) / (h0 + h1);
  return values[top] - (slope * slope) / (4 * curve);
}

/** J, heat kept in all cells of a field. */
export function heatKept(field: Field): number {
  const { x, y, z, enthalpy, strideX, strideY, first } = field;
  let sum = 0;
  for (let i = 0; i < x.width.length; i++)
    for (let j = 0; j < y.width.length; j++) {
      const area = x.width[i] * y.width[j];
      const row = first + i * strideX + j * strideY;
      for (let k = 0; k < z.width.length; k++) sum += area * z.width[k] * enthalpy[row + k];
    }
  return sum;
}

/** W, heat conducted out through the outer faces that are not shut. */
export function heatLeaving(field: Field): number {
  const { x, y, z, potential, faceX, faceY, faceZ, strideX, strideY, first } = field;
  const [nx, ny, nz] = [x.width.length, y.width.length, z.width.length];
  let sum = 0;
  for (let i = 0; i < nx; i++)
    for (let j = 0; j < ny; j++) {
      const row = first + i * strideX + j * strideY;
      sum += x.width[i] * y.width[j] * faceZ[nz] * potential[row + nz - 1];
      for (let k = 0; k < nz; k++) {
        let gate = 0;
        if (i === 0) gate += y.width[j] * faceX[0];
        if (i === nx - 1) gate += y.width[j] * faceX[nx];
        if (j === ny - 1) gate += x.width[i] * faceY[ny];
        if (gate > 0) sum += gate * z.width[k] * potential[row + k];
      }
    }
  return sum;
}
