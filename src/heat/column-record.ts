import type { ColumnSpec } from "./column-spec.ts";
import { type ColumnState, metalTemperatureAt } from "./column-state.ts";

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

/** K, where the lowest layer touches the metal: heat balance of a face without mass. power: W/m² incident. */
function interfaceTemperature(state: ColumnState, power: number): number {
  const m = state.grid.layerCount;
  if (m === 0) {
    const absorbed = power * (state.light.metalShare + (state.light.topShare ?? 0));
    return absorbed === 0
      ? state.temperature[0]!
      : metalTemperatureAt(state.table, state.potential[0]! + absorbed * 0.5 * state.width[0]!);
  }
  const { halfLayer, halfMetal, temperature, light } = state;
  return (
    (halfLayer * temperature[m - 1]! + halfMetal * temperature[m]! + light.metalShare * power) / (halfLayer + halfMetal)
  );
}

export function columnRecord(state: ColumnState, spec: ColumnSpec): ColumnRecord {
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
  recordStep(record, state, spec, 0, 0);
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

/** Takes up the state at time t (s); power: W/m² incident in the step that ended there. */
export function recordStep(record: ColumnRecord, state: ColumnState, spec: ColumnSpec, t: number, power: number): void {
  const { enthalpy, temperature, width, table, grid } = state;
  const m = grid.layerCount;
  for (let i = 0; i < m; i++) {
    if (temperature[i]! > record.layerPeak[i]!) record.layerPeak[i] = temperature[i]!;
    const layer = grid.layerOf[i]!;
    const share = taken(enthalpy[i]!, table.ablateFrom[layer]!, table.ablateTo[layer]!);
    if (share > record.ablated[i]!) record.ablated[i] = share;
  }
  let melt = 0;
  let boiled = 0;
  for (let i = m; i < enthalpy.length && enthalpy[i]! > table.meltFrom; i++) {
    melt += width[i]! * taken(enthalpy[i]!, table.meltFrom, table.meltTo);
    boiled += width[i]! * taken(enthalpy[i]!, table.boilFrom, table.boilTo);
  }
  record.meltDepth = Math.max(record.meltDepth, melt);
  record.boiledDepth = Math.max(record.boiledDepth, boiled);
  const contact = interfaceTemperature(state, power);
  const skin = m === 0 ? 0 : (power * (state.light.topShare ?? 0) * width[0]!) / (2 * spec.layers[0]!.conductivity);
  record.topPeak = Math.max(record.topPeak, m === 0 ? contact : temperature[0]! + skin);
  record.interfacePeak = Math.max(record.interfacePeak, contact);
  const k = record.length;
  if (k > 0) {
    for (let j = 0; j < record.thresholds.length; j++) {
      record.timeAbove[j]! += spanAbove(
        record.thresholds[j]!,
        record.time[k - 1]!,
        record.temperature[k - 1]!,
        t,
        contact,
      );
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
