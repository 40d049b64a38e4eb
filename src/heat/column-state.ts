import { invalid, requirePositive } from "#units";
import { columnGrid } from "./column-grid.ts";
import { enthalpyAt, type MaterialTable, materialTable, row } from "./column-material.ts";
import type { ColumnGrid, ColumnSpec } from "./column-spec.ts";

// Bound here once: a constant of this file costs nothing in a loop, one of another file does.
const { ANCHOR, FROM, POTENTIAL, POTENTIAL_SLOPE, ROW, TEMPERATURE, TEMPERATURE_SLOPE, TO } = row;

/** Everything a step works on, in flat arrays that are made once per solve. Cell arrays have one spare cell at the end. */
export interface ColumnState {
  readonly grid: ColumnGrid;
  readonly table: MaterialTable;
  /** index of the material of each cell: the layer, then the metal */
  readonly material: Int32Array;
  readonly width: Float64Array;
  readonly inverseWidth: Float64Array;
  /** conductance of the face above each cell: 1/m between potentials, W/(m²·K) between temperatures where the material changes */
  readonly face: Float64Array;
  /** cells whose face above lies between two materials, ascending, then a number beyond all cells */
  readonly joints: Int32Array;
  /** J/m³ of the column as it was; K; W/m */
  readonly enthalpy: Float64Array;
  readonly temperature: Float64Array;
  readonly potential: Float64Array;
  /** offset of the piece of each cell in the table */
  readonly piece: Int32Array;
  /** heat flowing into each cell by conduction, W/m³ */
  readonly inflow: Float64Array;
  /** 1 / share of the heat capacity that is left after gas has gone; 1 without char */
  readonly inverseScale: Float64Array;
  /** J/m³ at the start */
  readonly startEnthalpy: Float64Array;
  /** J/(m³·K) of each cell when cold, for tolerances */
  readonly capacity: Float64Array;
  /** decomposition per layer cell: ln A, E/R (K), heat J/m³; −∞ rate where there is none */
  readonly logRate: Float64Array;
  readonly activation: Float64Array;
  readonly reactionHeat: Float64Array;
  readonly conversion: Float64Array;
  /** whether any layer decomposes; whether any leaves char */
  readonly reacts: boolean;
  readonly chars: boolean;
  /** first cell that is still there */
  first: number;
}

const gasConstant = 8.314462618;

/** Temperatures and potentials of all cells from their enthalpies. */
export function evaluateCells(state: ColumnState): void {
  const { enthalpy, temperature, potential, piece, inverseScale } = state;
  const { rows } = state.table;
  const n = state.grid.count;
  for (let i = state.first; i < n; i++) {
    const v = enthalpy[i] * inverseScale[i];
    let o = piece[i];
    while (v < rows[o + FROM]) o -= ROW;
    while (v >= rows[o + TO]) o += ROW;
    piece[i] = o;
    const d = v - rows[o + ANCHOR];
    temperature[i] = rows[o + TEMPERATURE] + rows[o + TEMPERATURE_SLOPE] * d;
    potential[i] = rows[o + POTENTIAL] + rows[o + POTENTIAL_SLOPE] * d;
  }
}

/** Conduction into every cell from the potentials and temperatures of `evaluateCells`. */
export function evaluateFlow(state: ColumnState): void {
  const { face, potential, temperature, inflow, inverseWidth, joints, first } = state;
  const n = state.grid.count;
  let at = 0;
  while (joints[at] <= first) at++;
  let above = 0;
  for (let i = first; i < n; i++) {
    let below = 0;
    if (i + 1 === joints[at]) {
      below = face[i + 1] * (temperature[i] - temperature[i + 1]);
      at++;
    } else if (i + 1 < n) below = face[i + 1] * (potential[i] - potential[i + 1]);
    inflow[i] = (above - below) * inverseWidth[i];
    above = below;
  }
}

function jointsOf(material: Int32Array): Int32Array {
  const joints: number[] = [];
  for (let i = 1; i < material.length; i++) if (material[i] !== material[i - 1]) joints.push(i);
  return Int32Array.of(...joints, 0x7fffffff);
}

/** Builds the state at the start. Throws `InvalidInput` on anything that cannot be. */
export function columnState(spec: ColumnSpec): ColumnState {
  const { layers } = spec;
  const start = requirePositive("start temperature", spec.startTemperature, "K");
  const profile = spec.startProfile ?? null;
  let coldest = start;
  for (const t of profile ?? []) coldest = Math.min(coldest, requirePositive("start profile", t, "K"));
  const table = materialTable(layers, spec.metal, coldest);
  const grid = columnGrid(layers, spec.metal, spec.pulse.duration, spec.endTime, spec.grid);
  const { count: n, layerCount: m } = grid;
  if (profile && profile.length !== n) invalid("start profile", profile.length, "values", `must be one per cell, ${n}`);
  const numbers = () => new Float64Array(n + 1);
  const material = new Int32Array(n).fill(layers.length);
  material.set(grid.layerOf);
  const state: ColumnState = {
    grid,
    table,
    material,
    width: numbers(),
    inverseWidth: numbers(),
    face: numbers(),
    joints: jointsOf(material),
    enthalpy: numbers(),
    temperature: numbers(),
    potential: numbers(),
    piece: new Int32Array(n + 1).fill(table.firstRow[layers.length]),
    inflow: numbers(),
    inverseScale: numbers().fill(1),
    startEnthalpy: numbers(),
    capacity: numbers(),
    logRate: numbers().fill(Number.NEGATIVE_INFINITY),
    activation: numbers(),
    reactionHeat: numbers(),
    conversion: new Float64Array(m),
    reacts: layers.some((layer) => layer.decomposition !== null),
    chars: layers.some((layer) => layer.decomposition !== null && layer.char),
    first: 0,
  };
  for (let i = 0; i < n; i++) {
    state.width[i] = grid.edges[i + 1] - grid.edges[i];
    state.inverseWidth[i] = 1 / state.width[i];
    if (i > 0) state.face[i] = 2 / (state.width[i - 1] + state.width[i]);
    const row = table.firstRow[material[i]];
    state.piece[i] = row;
    state.startEnthalpy[i] = enthalpyAt(table.rows, row, profile ? profile[i] : start);
    state.capacity[i] = 1 / table.rows[row + TEMPERATURE_SLOPE];
    const layer = i < m ? layers[material[i]] : null;
    if (layer?.decomposition) {
      state.logRate[i] = Math.log(layer.decomposition.preExponential);
      state.activation[i] = layer.decomposition.activationEnergy / gasConstant;
      state.reactionHeat[i] = layer.density * layer.decomposition.heat;
    }
  }
  state.enthalpy.set(state.startEnthalpy);
  return state;
}
