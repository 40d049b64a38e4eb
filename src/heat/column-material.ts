import type { ColumnLayer, ColumnMetal, ColumnTable } from "./column-spec.ts";
import { requireLayer, requireMetal } from "./column-refuse.ts";

/**
 * Temperature and conduction potential ∫k dT (Kirchhoff) as straight pieces over volumetric enthalpy, all materials of
 * a column in one flat array, so that k(T) costs nothing in the flux. A latent heat is a piece of zero slope, so it is
 * exact. Enthalpy and potential of each material are counted from its own coldest node.
 */
export interface MaterialTable {
  /** `ROW` numbers per piece, see the offsets below */
  readonly rows: Float64Array;
  /** offset of the first piece of each layer, then of the metal */
  readonly firstRow: readonly number[];
  /** J/m³, per material: where ablation or boiling begins and ends; +∞ where there is none */
  readonly leaveFrom: readonly number[];
  readonly leaveTo: readonly number[];
  /** metal, J/m³: where melting begins and ends */
  readonly meltFrom: number;
  readonly meltTo: number;
  /** m²/s, of the metal over its table */
  readonly largestDiffusivity: number;
}

/** Numbers per piece, and what stands where. FROM and TO bound the search: −∞ and +∞ at the ends of a material. */
export const row = {
  ROW: 8,
  FROM: 0,
  TO: 1,
  /** J/m³, with temperature (K) and potential (W/m) there */
  ANCHOR: 2,
  TEMPERATURE: 3,
  /** K per J/m³ */
  TEMPERATURE_SLOPE: 4,
  POTENTIAL: 5,
  /** W/m per J/m³ */
  POTENTIAL_SLOPE: 6,
  /** W/(m·K), mean of the piece; at a latent heat the value at its temperature */
  CONDUCTIVITY: 7,
} as const;
const { ROW, FROM, TO, ANCHOR, TEMPERATURE, TEMPERATURE_SLOPE, POTENTIAL, POTENTIAL_SLOPE, CONDUCTIVITY } = row;

/** Widest step in temperature over which c and k of a table are taken constant, K. */
const widestPiece = 50;

/** Value of a table at T by straight lines, held constant outside. */
function tableAt(xs: Float64Array, ys: Float64Array, x: number): number {
  const last = xs.length - 1;
  if (x <= xs[0]) return ys[0];
  if (x >= xs[last]) return ys[last];
  let i = 0;
  while (x >= xs[i + 1]) i++;
  return ys[i] + ((x - xs[i]) / (xs[i + 1] - xs[i])) * (ys[i + 1] - ys[i]);
}

/** Conductivity of the metal, W/(m·K), at a temperature in K. Straight between table points, constant outside. */
export function metalConductivity(metal: ColumnMetal, temperature: number): number {
  return tableAt(metal.temperature, metal.conductivity, temperature);
}

/** Largest diffusivity of a metal over its table, m²/s. */
export function largestDiffusivity(metal: ColumnMetal): number {
  let largest = 0;
  for (let i = 0; i < metal.temperature.length; i++) {
    largest = Math.max(largest, metal.conductivity[i] / (metal.density * metal.heatCapacity[i]));
  }
  return largest;
}

interface Body {
  readonly density: number;
  readonly table: ColumnTable;
  /** melting, boiling or ablation: K and J/kg, ascending */
  readonly plateaus: readonly { readonly at: number; readonly heat: number }[];
}

/** Temperatures between which c and k count as constant: all table points and plateaus, finer where a table slopes. */
function nodesOf(body: Body, coldest: number): number[] {
  const { temperature, conductivity, heatCapacity } = body.table;
  const stops = [coldest, ...body.plateaus.map((p) => p.at), ...temperature].filter((t) => t >= coldest);
  const sorted = [...new Set(stops)].sort((a, b) => a - b);
  sorted.push(sorted[sorted.length - 1] + widestPiece);
  const nodes: number[] = [];
  for (let i = 0; i + 1 < sorted.length; i++) {
    const [a, b] = [sorted[i], sorted[i + 1]];
    const flat =
      tableAt(temperature, conductivity, a) === tableAt(temperature, conductivity, b) &&
      tableAt(temperature, heatCapacity, a) === tableAt(temperature, heatCapacity, b);
    const pieces = flat ? 1 : Math.ceil((b - a) / widestPiece);
    for (let j = 0; j < pieces; j++) nodes.push(a + ((b - a) * j) / pieces);
  }
  nodes.push(sorted[sorted.length - 1]);
  return nodes;
}

/** Appends the pieces of one body; returns the enthalpies at which each plateau begins and ends. */
function appendBody(rows: number[], body: Body, coldest: number): { from: number; to: number }[] {
  const { density, table } = body;
  const nodes = nodesOf(body, Math.min(coldest, (body.plateaus[0]?.at ?? coldest + 1) - 1));
  const firstRow = rows.length;
  const marks: { from: number; to: number }[] = [];
  let h = 0;
  let p = 0;
  for (let i = 0; i + 1 < nodes.length; i++) {
    const [a, b] = [nodes[i], nodes[i + 1]];
    const c =
      0.5 * (tableAt(table.temperature, table.heatCapacity, a) + tableAt(table.temperature, table.heatCapacity, b));
    const k =
      0.5 * (tableAt(table.temperature, table.conductivity, a) + tableAt(table.temperature, table.conductivity, b));
    const to = h + density * c * (b - a);
    rows.push(h, to, h, a, 1 / (density * c), p, k / (density * c), k);
    h = to;
    p += k * (b - a);
    const plateau = body.plateaus.find((x) => x.at === b);
    if (!plateau) continue;
    const end = h + density * plateau.heat;
    marks.push({ from: h, to: end });
    if (end > h) rows.push(h, end, h, b, 0, p, 0, tableAt(table.temperature, table.conductivity, b));
    h = end;
  }
  rows[firstRow + FROM] = Number.NEGATIVE_INFINITY;
  rows[rows.length - ROW + TO] = Number.POSITIVE_INFINITY;
  return marks;
}

function layerBody(layer: ColumnLayer): Body {
  const { ablationTemperature: at, ablationHeat: heat } = layer;
  return {
    density: layer.density,
    table: layer.table ?? {
      temperature: Float64Array.of(300),
      conductivity: Float64Array.of(layer.conductivity),
      heatCapacity: Float64Array.of(layer.heatCapacity),
    },
    plateaus: at === null || heat === null ? [] : [{ at, heat }],
  };
}

/**
 * The pieces of all materials of a column. coldest: K, lowest temperature of the run.
 * H(T) = ρ·∫c dT plus latent heats at melting, boiling and ablation; θ(T) = ∫k dT. c and k are straight between the
 * points of a table, constant outside, and averaged over pieces of at most 50 K. Throws `InvalidInput`. Source: own
 * (enthalpy method: Voller & Cross, Int. J. Heat Mass Transfer 24 (1981) 545, from memory).
 */
export function materialTable(layers: readonly ColumnLayer[], metal: ColumnMetal, coldest: number): MaterialTable {
  const rows: number[] = [];
  const firstRow: number[] = [];
  const leaveFrom: number[] = [];
  const leaveTo: number[] = [];
  for (const layer of layers) {
    requireLayer(layer);
    firstRow.push(rows.length);
    const plateau = appendBody(rows, layerBody(layer), coldest)[0];
    leaveFrom.push(plateau?.from ?? Number.POSITIVE_INFINITY);
    leaveTo.push(plateau?.to ?? Number.POSITIVE_INFINITY);
  }
  requireMetal(metal);
  firstRow.push(rows.length);
  const plateaus = [
    { at: metal.meltingTemperature, heat: metal.latentHeatMelting },
    { at: metal.boilingTemperature, heat: metal.latentHeatBoiling },
  ];
  const [melt, boil] = appendBody(rows, { density: metal.density, table: metal, plateaus }, coldest);
  leaveFrom.push(boil.from);
  leaveTo.push(boil.to);
  return {
    rows: Float64Array.from(rows),
    firstRow,
    leaveFrom,
    leaveTo,
    meltFrom: melt.from,
    meltTo: melt.to,
    largestDiffusivity: largestDiffusivity(metal),
  };
}

/** Enthalpy in J/m³ of a material at a temperature in K, below any latent heat taken at exactly that temperature. */
export function enthalpyAt(rows: Float64Array, firstRow: number, temperature: number): number {
  let o = firstRow;
  while (
    rows[o + TO] !== Number.POSITIVE_INFINITY &&
    (rows[o + TEMPERATURE_SLOPE] === 0 ||
      rows[o + TEMPERATURE] + rows[o + TEMPERATURE_SLOPE] * (rows[o + TO] - rows[o + ANCHOR]) < temperature)
  ) {
    o += ROW;
  }
  const slope = rows[o + TEMPERATURE_SLOPE];
  return rows[o + ANCHOR] + (slope === 0 ? 0 : (temperature - rows[o + TEMPERATURE]) / slope);
}

/** Temperature in K that belongs to a potential (W/m) of a material, from its conduction integral. */
export function temperatureAtPotential(rows: Float64Array, firstRow: number, potential: number): number {
  let o = firstRow;
  while (
    rows[o + TO] !== Number.POSITIVE_INFINITY &&
    (rows[o + POTENTIAL_SLOPE] === 0 ||
      rows[o + POTENTIAL] + rows[o + POTENTIAL_SLOPE] * (rows[o + TO] - rows[o + ANCHOR]) < potential)
  ) {
    o += ROW;
  }
  if (rows[o + POTENTIAL_SLOPE] === 0) return rows[o + TEMPERATURE];
  return rows[o + TEMPERATURE] + (potential - rows[o + POTENTIAL]) / rows[o + CONDUCTIVITY];
}
