import { temperatureAtPotential } from "./column-material.ts";
import type { ColumnSpec } from "./column-spec.ts";
import type { ColumnState } from "./column-state.ts";
import { type ColumnSurface, cellConductivity } from "./column-surface.ts";

/** What is kept of the run, step by step. */
export interface ColumnRecord {
  readonly layerPeak: Float64Array;
  readonly ablated: Float64Array;
  topPeak: number;
  interfacePeak: number;
  meltDepth: number;
  boiledDepth: number;
  time: Float64Array;
  temperature: Float64Array;
  length: number;
  readonly thresholds: readonly number[];
  readonly timeAbove: Float64Array;
}

/** Share of a latent heat taken up, 0..1. */
function taken(enthalpy: number, from: number, to: number): number {
  if (enthalpy <= from) return 0;
  return enthalpy >= to ? 1 : (enthalpy - from) / (to - from);
}

/**
 * K, of the surface of the metal: heat balance of a face without mass, to the lowest layer or, bare, to the light.
 * Boiling metal that leaves is no hotter than its boiling point. power: W/m² incident.
 */
function interfaceTemperature(state: ColumnState, surface: ColumnSurface, spec: ColumnSpec, power: number): number {
  const { temperature, potential, width, table, first } = state;
  const m = state.grid.layerCount;
  if (first >= m) {
    const absorbed = power * (surface.topShare + surface.light.metalShare);
    const skin = potential[first] + absorbed * 0.5 * width[first];
    const kelvin = temperatureAtPotential(table.rows, table.firstRow[spec.layers.length], skin);
    return spec.recession === false ? kelvin : Math.min(kelvin, spec.metal.boilingTemperature);
  }
  const { halfLayer, halfMetal, light } = surface;
  return (
    (halfLayer * temperature[m - 1] + halfMetal * temperature[m] + light.metalShare * power) / (halfLayer + halfMetal)
  );
}

/** K, of the outer surface; contact: K, of the metal's. */
function topTemperature(
  state: ColumnState,
  surface: ColumnSurface,
  spec: ColumnSpec,
  power: number,
  contact: number,
): number {
  const { first, temperature, width } = state;
  if (first >= state.grid.layerCount) return contact;
  const layer = spec.layers[state.material[first]];
  const skin = (power * surface.topShare * width[first]) / (2 * cellConductivity(state, spec, first));
  const limit = spec.recession === false || layer.ablationHeat === null ? null : layer.ablationTemperature;
  return limit === null
    ? temperature[first] + skin
    : Math.max(temperature[first], Math.min(temperature[first] + skin, limit));
}

export function columnRecord(state: ColumnState, surface: ColumnSurface, spec: ColumnSpec): ColumnRecord {
  const m = state.grid.layerCount;
  const record: ColumnRecord = {
    layerPeak: new Float64Array(m),
    ablated: new Float64Array(m),
    topPeak: 0,
    interfacePeak: 0,
    meltDepth: 0,
    boiledDepth: 0,
    time: new Float64Array(256),
    temperature: new Float64Array(256),
    length: 0,
    thresholds: spec.thresholds ?? [],
    timeAbove: new Float64Array(spec.thresholds?.length ?? 0),
  };
  recordStep(record, state, surface, spec, 0, 0);
  return record;
}

function grow(values: Float64Array): Float64Array {
  const longer = new Float64Array(values.length * 2);
  longer.set(values);
  return longer;
}

/** Time of a straight history from (t0, a) to (t1, b) that lies above a limit, s. */
function spanAbove(limit: number, t0: number, a: number, t1: number, b: number): number {
  if (a > limit && b > limit) return t1 - t0;
  if (a <= limit && b <= limit) return 0;
  return ((t1 - t0) * (Math.max(a, b) - limit)) / Math.abs(b - a);
}

/** Takes up peaks of the layers, depths of melting, boiling and recession. */
function recordCells(record: ColumnRecord, state: ColumnState, surface: ColumnSurface): void {
  const { enthalpy, inverseScale, temperature, width, table, grid, material, first } = state;
  const m = grid.layerCount;
  for (let i = first; i < m; i++) {
    if (temperature[i] > record.layerPeak[i]) record.layerPeak[i] = temperature[i];
    const layer = material[i];
    const from = table.leaveFrom[layer];
    const h = enthalpy[i] * inverseScale[i];
    if (h > from) record.ablated[i] = Math.max(record.ablated[i], taken(h, from, table.leaveTo[layer]));
  }
  const metal = table.firstRow.length - 1;
  let melt = surface.goneMetal;
  let boiled = surface.goneMetal;
  for (let i = Math.max(first, m); i < grid.count && enthalpy[i] > table.meltFrom; i++) {
    melt += width[i] * taken(enthalpy[i], table.meltFrom, table.meltTo);
    boiled += width[i] * taken(enthalpy[i], table.leaveFrom[metal], table.leaveTo[metal]);
  }
  record.meltDepth = Math.max(record.meltDepth, melt);
  record.boiledDepth = Math.max(record.boiledDepth, boiled);
}

/** Counts ablation of layer cells that left or grew thinner. */
export function recordLeft(record: ColumnRecord, state: ColumnState): void {
  const { first, grid, width, table, material } = state;
  for (let i = 0; i < grid.layerCount && i <= first; i++) {
    if (table.leaveTo[material[i]] === Number.POSITIVE_INFINITY) continue;
    const left = i < first ? 0 : width[i] / (grid.edges[i + 1] - grid.edges[i]);
    record.ablated[i] = Math.max(record.ablated[i], 1 - left);
  }
}

/** Takes up the state at time t (s); power: W/m² incident in the step that ended there. */
export function recordStep(
  record: ColumnRecord,
  state: ColumnState,
  surface: ColumnSurface,
  spec: ColumnSpec,
  t: number,
  power: number,
): void {
  recordCells(record, state, surface);
  const contact = interfaceTemperature(state, surface, spec, power);
  record.topPeak = Math.max(record.topPeak, topTemperature(state, surface, spec, power, contact));
  record.interfacePeak = Math.max(record.interfacePeak, contact);
  const k = record.length;
  if (k > 0) {
    for (let j = 0; j < record.thresholds.length; j++) {
      const limit = record.thresholds[j];
      record.timeAbove[j] += spanAbove(limit, record.time[k - 1], record.temperature[k - 1], t, contact);
    }
  }
  if (k === record.time.length) {
    record.time = grow(record.time);
    record.temperature = grow(record.temperature);
  }
  record.time[k] = t;
  record.temperature[k] = contact;
  record.length = k + 1;
}
