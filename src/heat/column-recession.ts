import type { ColumnSpec } from "./column-spec.ts";
import type { ColumnState } from "./column-state.ts";
import { type ColumnSurface, spreadLight } from "./column-surface.ts";

/** Conversion from which a cell counts as wholly decomposed; with char below what is then left, it leaves. */
const decomposed = 0.98;
const leastLeft = 1 - decomposed;

/**
 * Lets the gas of decomposition go from cells with char: the share of heat capacity that is left falls to
 * s = 1 − X·(1 − f·c_char/c), at the same temperature; what the gas carries is booked. f: share of mass that stays, X:
 * conversion, both 1. Never below 0.02, so that a cell keeps a temperature. Source: own.
 */
export function letGasGo(state: ColumnState, spec: ColumnSpec, surface: ColumnSurface): void {
  const { conversion, inverseScale, enthalpy, startEnthalpy, width, material } = state;
  for (let i = state.first; i < state.grid.layerCount; i++) {
    const layer = spec.layers[material[i]];
    if (!layer.char || conversion[i] === 0) continue;
    const kept = (layer.char.fraction * layer.char.heatCapacity) / layer.heatCapacity;
    const scale = Math.max(leastLeft, 1 - conversion[i] * (1 - kept));
    const before = 1 / inverseScale[i];
    if (scale === before) continue;
    const full = enthalpy[i] * inverseScale[i];
    surface.carried += (full - startEnthalpy[i]) * (before - scale) * width[i];
    enthalpy[i] = full * scale;
    inverseScale[i] = 1 / scale;
  }
}

/** Whether the heat of ablation or boiling of a cell is paid. */
function paid(state: ColumnState, i: number): boolean {
  return state.enthalpy[i] * state.inverseScale[i] >= state.table.leaveTo[state.material[i]];
}

function nothingLeft(state: ColumnState, spec: ColumnSpec, i: number): boolean {
  if (i >= state.grid.layerCount) return false;
  const char = spec.layers[state.material[i]].char;
  return !!char && char.fraction < leastLeft && state.conversion[i] >= decomposed;
}

/**
 * Takes away what has left: every cell whose latent heat is paid, together with all that lies above it, and from the
 * top on cells that decomposed to nothing. A paid cell hands what it took up beyond its latent heat to the next of its
 * kind; the rest is booked as carried away. The last two cells of the metal never leave. True when something left.
 * Source: own.
 */
export function recede(state: ColumnState, spec: ColumnSpec, surface: ColumnSurface): boolean {
  const { enthalpy, inverseScale, startEnthalpy, width, inverseWidth, material, face } = state;
  const end = state.grid.count - 2;
  let next = state.first;
  for (let i = state.first; i < end; i++) if (paid(state, i)) next = i + 1;
  while (next < end && nothingLeft(state, spec, next)) next++;
  if (next === state.first) return false;
  for (let i = state.first; i < next; i++) {
    const scale = 1 / inverseScale[i];
    let leaves = enthalpy[i];
    if (paid(state, i) && material[i + 1] === material[i]) {
      leaves = state.table.leaveTo[material[i]] * scale;
      enthalpy[i + 1] += (enthalpy[i] - leaves) * width[i] * inverseWidth[i + 1];
      if (i + 1 === next && next < end && paid(state, next)) next++;
    }
    surface.carried += (leaves - startEnthalpy[i] * scale) * width[i];
  }
  state.first = next;
  face[next] = 0;
  spreadLight(state, surface);
  return true;
}
