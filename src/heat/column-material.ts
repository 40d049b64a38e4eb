import { invalid, requireNonNegative, requirePositive } from "#units";
import type { ColumnLayer, ColumnMetal } from "./column-spec.ts";

/**
 * Temperature and conduction potential as straight pieces over volumetric enthalpy, all materials of a column in
 * shared flat arrays. A latent heat is a piece of zero slope, so it is exact.
 * Enthalpy is counted from `baseTemperature` of its material. The potential is ∫k dT in the metal (Kirchhoff), so
 * that k(T) costs nothing in the flux, and T in the layers, whose k is constant.
 */
export interface MaterialTable {
  /** J/m³, lower end of the piece for the search; the first piece of a material has −∞ */
  readonly from: Float64Array;
  /** J/m³, upper end; the last piece of a material has +∞ */
  readonly to: Float64Array;
  /** J/m³, K, potential at the anchor of the piece, and slopes per J/m³ */
  readonly anchor: Float64Array;
  readonly temperature: Float64Array;
  readonly potential: Float64Array;
  readonly temperatureSlope: Float64Array;
  readonly potentialSlope: Float64Array;
  /** first piece of each layer, then of the metal */
  readonly firstPiece: number[];
  /** metal: enthalpies at which melting and boiling begin and end, J/m³ */
  readonly meltFrom: number;
  readonly meltTo: number;
  readonly boilFrom: number;
  readonly boilTo: number;
  /** per layer: enthalpies at which ablation begins and ends, J/m³; +∞ where it does not ablate */
  readonly ablateFrom: number[];
  readonly ablateTo: number[];
}

/** Widest step in temperature over which c and k of the metal are taken constant, K. */
const widestPiece = 50;

interface Pieces {
  readonly from: number[];
  readonly to: number[];
  readonly anchor: number[];
  readonly temperature: number[];
  readonly potential: number[];
  readonly temperatureSlope: number[];
  readonly potentialSlope: number[];
}

/** Appends one material given at nodes of enthalpy h, temperature t and potential p; outer pieces run on straight. */
function appendPieces(out: Pieces, h: number[], t: number[], p: number[]): void {
  const last = h.length - 2;
  for (let i = 0; i <= last; i++) {
    const width = h[i + 1]! - h[i]!;
    out.from.push(i === 0 ? Number.NEGATIVE_INFINITY : h[i]!);
    out.to.push(i === last ? Number.POSITIVE_INFINITY : h[i + 1]!);
    out.anchor.push(h[i]!);
    out.temperature.push(t[i]!);
    out.potential.push(p[i]!);
    out.temperatureSlope.push((t[i + 1]! - t[i]!) / width);
    out.potentialSlope.push((p[i + 1]! - p[i]!) / width);
  }
}

function appendLayer(out: Pieces, layer: ColumnLayer): { from: number; to: number } {
  const capacity =
    requirePositive("density", layer.density, "kg/m³") *
    requirePositive("heat capacity", layer.heatCapacity, "J/(kg·K)");
  requirePositive("conductivity", layer.conductivity, "W/(m·K)");
  const plateau = layer.ablationTemperature;
  if (plateau === null || layer.ablationHeat === null) {
    appendPieces(out, [0, capacity * 300], [0, 300], [0, 300]);
    return { from: Number.POSITIVE_INFINITY, to: Number.POSITIVE_INFINITY };
  }
  requirePositive("ablation temperature", plateau, "K");
  const from = capacity * plateau;
  const to = from + layer.density * requirePositive("ablation heat", layer.ablationHeat, "J/kg");
  const t = [0, plateau, plateau, plateau + 300];
  appendPieces(out, [0, from, to, to + capacity * 300], t, t);
  return { from, to };
}

/** Value of a table at T by straight lines, held constant outside. */
function tableAt(xs: Float64Array, ys: Float64Array, x: number): number {
  const last = xs.length - 1;
  if (x <= xs[0]!) return ys[0]!;
  if (x >= xs[last]!) return ys[last]!;
  let i = 0;
  while (x >= xs[i + 1]!) i++;
  return ys[i]! + ((x - xs[i]!) / (xs[i + 1]! - xs[i]!)) * (ys[i + 1]! - ys[i]!);
}

/** Conductivity of the metal, W/(m·K), at a temperature in K. Straight between table points, constant outside. */
export function metalConductivity(metal: ColumnMetal, temperature: number): number {
  return tableAt(metal.temperature, metal.conductivity, temperature);
}

function metalNodes(metal: ColumnMetal, coldest: number): number[] {
  const { temperature: table, meltingTemperature: melt, boilingTemperature: boil } = metal;
  const stops = [coldest, melt, boil, boil + widestPiece, ...table].filter((t) => t >= coldest);
  const sorted = [...new Set(stops)].sort((a, b) => a - b);
  const nodes: number[] = [];
  for (let i = 0; i + 1 < sorted.length; i++) {
    const pieces = Math.ceil((sorted[i + 1]! - sorted[i]!) / widestPiece);
    for (let j = 0; j < pieces; j++) nodes.push(sorted[i]! + ((sorted[i + 1]! - sorted[i]!) * j) / pieces);
  }
  nodes.push(sorted[sorted.length - 1]!);
  return nodes;
}

function requireMetal(metal: ColumnMetal): void {
  const n = metal.temperature.length;
  if (n === 0 || metal.conductivity.length !== n || metal.heatCapacity.length !== n) {
    invalid(
      "metal table",
      n,
      "points",
      "temperature, conductivity and heat capacity must have the same length, above 0",
    );
  }
  for (let i = 0; i < n; i++) {
    requirePositive("conductivity", metal.conductivity[i], "W/(m·K)");
    requirePositive("heat capacity", metal.heatCapacity[i], "J/(kg·K)");
    if (i > 0 && !(metal.temperature[i]! > metal.temperature[i - 1]!)) {
      invalid("metal table", metal.temperature[i], "K", "temperatures must ascend");
    }
  }
  requirePositive("density", metal.density, "kg/m³");
  requirePositive("melting temperature", metal.meltingTemperature, "K");
  requireNonNegative("latent heat of melting", metal.latentHeatMelting, "J/kg");
  requireNonNegative("latent heat of boiling", metal.latentHeatBoiling, "J/kg");
  if (!(metal.boilingTemperature > metal.meltingTemperature)) {
    invalid("boiling temperature", metal.boilingTemperature, "K", "must be above the melting temperature");
  }
}

/**
 * The pieces of all materials of a column. coldest: K, lowest temperature of the run.
 * H(T) = ρ·∫c dT plus latent heats at melting and boiling; θ(T) = ∫k dT. c and k are straight between the points of
 * the metal's table, constant outside, and averaged over pieces of at most 50 K. Throws `InvalidInput`. Source: own
 * (enthalpy method: Voller & Cross, Int. J. Heat Mass Transfer 24 (1981) 545, from memory).
 */
export function materialTable(layers: readonly ColumnLayer[], metal: ColumnMetal, coldest: number): MaterialTable {
  requireMetal(metal);
  const out: Pieces = {
    from: [],
    to: [],
    anchor: [],
    temperature: [],
    potential: [],
    temperatureSlope: [],
    potentialSlope: [],
  };
  const firstPiece: number[] = [];
  const ablateFrom: number[] = [];
  const ablateTo: number[] = [];
  for (const layer of layers) {
    firstPiece.push(out.from.length);
    const { from, to } = appendLayer(out, layer);
    ablateFrom.push(from);
    ablateTo.push(to);
  }
  firstPiece.push(out.from.length);
  const h = [0];
  const nodes = metalNodes(metal, Math.min(coldest, metal.meltingTemperature - 1));
  const t = [nodes[0]!];
  const p = [0];
  const marks = { meltFrom: 0, meltTo: 0, boilFrom: 0, boilTo: 0 };
  const push = (dh: number, temperature: number, dp: number) => {
    h.push(h[h.length - 1]! + dh);
    t.push(temperature);
    p.push(p[p.length - 1]! + dp);
    return h[h.length - 1]!;
  };
  for (let i = 1; i < nodes.length; i++) {
    const a = nodes[i - 1]!;
    const b = nodes[i]!;
    const c =
      0.5 * (tableAt(metal.temperature, metal.heatCapacity, a) + tableAt(metal.temperature, metal.heatCapacity, b));
    const end = push(
      metal.density * c * (b - a),
      b,
      0.5 * (metalConductivity(metal, a) + metalConductivity(metal, b)) * (b - a),
    );
    if (b === metal.meltingTemperature) {
      marks.meltFrom = end;
      marks.meltTo = metal.latentHeatMelting > 0 ? push(metal.density * metal.latentHeatMelting, b, 0) : end;
    } else if (b === metal.boilingTemperature) {
      marks.boilFrom = end;
      marks.boilTo = metal.latentHeatBoiling > 0 ? push(metal.density * metal.latentHeatBoiling, b, 0) : end;
    }
  }
  appendPieces(out, h, t, p);
  return {
    from: Float64Array.from(out.from),
    to: Float64Array.from(out.to),
    anchor: Float64Array.from(out.anchor),
    temperature: Float64Array.from(out.temperature),
    potential: Float64Array.from(out.potential),
    temperatureSlope: Float64Array.from(out.temperatureSlope),
    potentialSlope: Float64Array.from(out.potentialSlope),
    firstPiece,
    ...marks,
    ablateFrom,
    ablateTo,
  };
}
