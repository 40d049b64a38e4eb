import { invalid, requirePositive } from "#units";
import { columnGrid } from "./column-grid.ts";
import { type MaterialTable, materialTable, metalConductivity } from "./column-material.ts";
import type { ColumnGrid, ColumnLight, ColumnSpec } from "./column-spec.ts";

/** Everything a step works on, in flat arrays that are made once per solve. */
export interface ColumnState {
  readonly grid: ColumnGrid;
  readonly table: MaterialTable;
  readonly width: Float64Array;
  /** conductance of the face above each cell, W/(m²·K) between temperatures or 1/m between potentials; face 0 is shut */
  readonly face: Float64Array;
  /** conductance of half a cell on each side of the interface, W/(m²·K) */
  halfLayer: number;
  halfMetal: number;
  /** share of the incident fluence per metre of each cell, 1/m */
  readonly share: Float64Array;
  readonly light: ColumnLight;
  /** enthalpy J/m³, temperature K, potential, their slopes and pieces, at the current iterate */
  readonly enthalpy: Float64Array;
  readonly temperature: Float64Array;
  readonly potential: Float64Array;
  readonly temperatureSlope: Float64Array;
  readonly potentialSlope: Float64Array;
  readonly piece: Int32Array;
  readonly lastPiece: Int32Array;
  /** heat flowing into each cell by conduction, W/m³ */
  readonly inflow: Float64Array;
  /** J/(m³·K) of each cell when cold, for tolerances and conversions */
  readonly capacity: Float64Array;
  /** decomposition per cell: ln A, E/R (K), heat J/m³; zero heat and −∞ rate where there is none */
  readonly logRate: Float64Array;
  readonly activation: Float64Array;
  readonly reactionHeat: Float64Array;
  readonly conversion: Float64Array;
  /** whether any layer decomposes */
  readonly reacts: boolean;
}

const gasConstant = 8.314462618;

function requireLight(light: ColumnLight, layerCount: number): void {
  if (light.layerShares.length !== layerCount) {
    invalid("layer shares", light.layerShares.length, "values", `must be one per layer cell, ${layerCount}`);
  }
  let sum = 0;
  for (const share of [...light.layerShares, light.metalShare, light.topShare ?? 0]) {
    if (!(share >= 0)) invalid("share of light", share, "", "must be 0 or above");
    sum += share;
  }
  if (sum > 1 + 1e-6) invalid("shares of light", sum, "", "must add up to at most 1");
}

/** Conductances of all faces inside the layers and inside the metal; the interface between them is set per step. */
function setFaces(spec: ColumnSpec, grid: ColumnGrid, width: Float64Array, face: Float64Array): void {
  for (let i = 1; i < grid.count; i++) {
    if (i < grid.layerCount) {
      const above = spec.layers[grid.layerOf[i - 1]!]!.conductivity;
      const below = spec.layers[grid.layerOf[i]!]!.conductivity;
      face[i] = 1 / (width[i - 1]! / (2 * above) + width[i]! / (2 * below));
    } else if (i > grid.layerCount) {
      face[i] = 2 / (width[i - 1]! + width[i]!);
    }
  }
}

/** Sets the two half conductances at the interface from the metal's temperature there; they hold for one step. */
export function setInterface(state: ColumnState, spec: ColumnSpec): void {
  const m = state.grid.layerCount;
  const { light, width, share } = state;
  state.halfMetal = (2 * metalConductivity(spec.metal, state.temperature[m]!)) / width[m]!;
  if (m === 0) return;
  state.halfLayer = (2 * spec.layers[spec.layers.length - 1]!.conductivity) / width[m - 1]!;
  const sum = state.halfLayer + state.halfMetal;
  state.face[m] = (state.halfLayer * state.halfMetal) / sum;
  const top = m === 1 ? (light.topShare ?? 0) : 0;
  share[m - 1] = (light.layerShares[m - 1]! + top + (light.metalShare * state.halfLayer) / sum) / width[m - 1]!;
  share[m] = (light.metalShare * state.halfMetal) / sum / width[m]!;
}

/** Enthalpy in J/m³ of a material at a temperature in K, below any latent heat taken at exactly that temperature. */
function enthalpyAt(table: MaterialTable, first: number, temperature: number): number {
  let i = first;
  while (
    table.to[i] !== Number.POSITIVE_INFINITY &&
    (table.temperatureSlope[i] === 0 ||
      table.temperature[i]! + table.temperatureSlope[i]! * (table.to[i]! - table.anchor[i]!) < temperature)
  ) {
    i++;
  }
  const slope = table.temperatureSlope[i]!;
  return table.anchor[i]! + (slope === 0 ? 0 : (temperature - table.temperature[i]!) / slope);
}

/** Temperature in K that belongs to a potential of the metal (W/m), from its conduction integral. */
export function metalTemperatureAt(table: MaterialTable, potential: number): number {
  let i = table.firstPiece[table.firstPiece.length - 1]!;
  while (
    table.to[i] !== Number.POSITIVE_INFINITY &&
    (table.potentialSlope[i] === 0 ||
      table.potential[i]! + table.potentialSlope[i]! * (table.to[i]! - table.anchor[i]!) < potential)
  ) {
    i++;
  }
  const slope = table.potentialSlope[i]!;
  if (slope === 0) return table.temperature[i]!;
  return table.temperature[i]! + (table.temperatureSlope[i]! * (potential - table.potential[i]!)) / slope;
}

/** Builds the state at the start. Throws `InvalidInput` on anything that cannot be. */
export function columnState(spec: ColumnSpec): ColumnState {
  const start = requirePositive("start temperature", spec.startTemperature, "K");
  const grid = columnGrid(spec.layers, spec.metal, spec.pulse.duration, spec.endTime, spec.grid);
  const n = grid.count;
  const m = grid.layerCount;
  const profile = spec.startProfile ?? new Float64Array(n).fill(start);
  if (profile.length !== n) invalid("start profile", profile.length, "values", `must be one per cell, ${n}`);
  let coldest = start;
  for (const t of profile) coldest = Math.min(coldest, requirePositive("start profile", t, "K"));
  const table = materialTable(spec.layers, spec.metal, coldest);
  const light = typeof spec.light === "function" ? spec.light(grid) : spec.light;
  requireLight(light, m);
  const numbers = () => new Float64Array(n);
  const state: ColumnState = {
    grid,
    table,
    width: numbers(),
    face: numbers(),
    halfLayer: 0,
    halfMetal: 0,
    share: numbers(),
    light,
    enthalpy: numbers(),
    temperature: Float64Array.from(profile),
    potential: numbers(),
    temperatureSlope: numbers(),
    potentialSlope: numbers(),
    piece: new Int32Array(n),
    lastPiece: new Int32Array(n),
    inflow: numbers(),
    capacity: numbers(),
    logRate: numbers().fill(Number.NEGATIVE_INFINITY),
    activation: numbers(),
    reactionHeat: numbers(),
    conversion: new Float64Array(m),
    reacts: spec.layers.some((layer) => layer.decomposition !== null),
  };
  for (let i = 0; i < n; i++) {
    state.width[i] = grid.edges[i + 1]! - grid.edges[i]!;
    const first = table.firstPiece[i < m ? grid.layerOf[i]! : spec.layers.length]!;
    state.piece[i] = first;
    state.enthalpy[i] = enthalpyAt(table, first, profile[i]!);
    state.capacity[i] = 1 / table.temperatureSlope[first]!;
    const absorbed = i < m ? light.layerShares[i]! : i === m ? light.metalShare : 0;
    state.share[i] = (absorbed + (i === 0 ? (light.topShare ?? 0) : 0)) / state.width[i]!;
    const layer = i < m ? spec.layers[grid.layerOf[i]!]! : null;
    if (layer?.decomposition) {
      state.logRate[i] = Math.log(requirePositive("pre-exponential", layer.decomposition.preExponential, "1/s"));
      state.activation[i] =
        requirePositive("activation energy", layer.decomposition.activationEnergy, "J/mol") / gasConstant;
      state.reactionHeat[i] = layer.density * layer.decomposition.heat;
    }
  }
  state.lastPiece.set(state.piece);
  setFaces(spec, grid, state.width, state.face);
  setInterface(state, spec);
  return state;
}
