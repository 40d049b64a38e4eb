import type { Axis } from "./grid.ts";
import type { MaterialTable } from "./material.ts";

/** Cells of padding before the first row along the line (its balance looks two cells upstream) and on all other sides. */
const PAD_FRONT = 2;
const PAD = 1;

/**
 * All cells of the referee, flat and padded with cold cells, so that no neighbour has to be asked for.
 * Along x the metal streams by (or stands still), y runs away from the line's middle, z down.
 */
export interface Field {
  readonly x: Axis;
  readonly y: Axis;
  readonly z: Axis;
  readonly table: MaterialTable;
  /** cells of the layer on top, along z */
  readonly layerCells: number;
  readonly strideX: number;
  readonly strideY: number;
  readonly first: number;
  readonly enthalpy: Float64Array;
  readonly potential: Float64Array;
  readonly temperature: Float64Array;
  readonly piece: Uint8Array;
  /** known side of each cell's balance */
  readonly base: Float64Array;
  /** heat let through each face per area and potential, 1/m; index of a cell is that of its lower face */
  readonly faceX: Float64Array;
  readonly faceY: Float64Array;
  readonly faceZ: Float64Array;
  /** W/(m²·K) between layer and metal, by temperature because there conductivity jumps */
  readonly contact: number;
}

/** What the outer faces do: heat runs out as if the body went on (radius m), or not at all (null). */
export interface OuterFaces {
  readonly front: number | null;
  readonly back: number | null;
  readonly side: number | null;
  readonly bottom: number | null;
}

function faces(axis: Axis, low: number | null, high: number | null): Float64Array {
  const n = axis.width.length;
  const face = new Float64Array(n + 1);
  if (low !== null) face[0] = 1 / (0.5 * axis.width[0] + low);
  for (let i = 1; i < n; i++) face[i] = 2 / (axis.width[i - 1] + axis.width[i]);
  if (high !== null) face[n] = 1 / (0.5 * axis.width[n - 1] + high);
  return face;
}

/** A cold field on the given axes. Units: axes m; outer radii m; layer as in its type. */
export function coldField(
  axes: { readonly x: Axis; readonly y: Axis; readonly z: Axis },
  table: MaterialTable,
  outer: OuterFaces,
  layer: { readonly cells: number; readonly conductivity: number; readonly metalConductivity: number } | null,
): Field {
  const { x, y, z } = axes;
  const strideY = z.width.length + 2 * PAD;
  const strideX = strideY * (y.width.length + 2 * PAD);
  const count = strideX * (x.width.length + PAD_FRONT + PAD);
  const layerCells = layer?.cells ?? 0;
  const faceZ = faces(z, null, outer.bottom);
  let contact = 0;
  if (layer) {
    faceZ[layerCells] = 0;
    contact = 2 / (z.width[layerCells - 1] / layer.conductivity + z.width[layerCells] / layer.metalConductivity);
  }
  const first = PAD_FRONT * strideX + PAD * strideY + PAD;
  const piece = new Uint8Array(count);
  for (let i = 0; i < x.width.length; i++)
    for (let j = 0; j < y.width.length; j++)
      piece.fill(table.layerPiece, first + i * strideX + j * strideY, first + i * strideX + j * strideY + layerCells);
  return {
    x,
    y,
    z,
    table,
    layerCells,
    strideX,
    strideY,
    first,
    enthalpy: new Float64Array(count),
    potential: new Float64Array(count),
    temperature: new Float64Array(count).fill(table.startTemperature),
    piece,
    base: new Float64Array(count),
    faceX: faces(x, outer.front, outer.back),
    faceY: faces(y, null, outer.side),
    faceZ,
    contact,
  };
}
