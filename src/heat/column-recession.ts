import type { ColumnSpec } from "./column-spec.ts";
import type { ColumnState } from "./column-state.ts";
import { type ColumnSurface, spreadLight } from "./column-surface.ts";

/** Conversion from which a cell counts as wholly decomposed; with char below what is then left, it leaves. */
const decomposed = 0.98;
const leastLeft = 1 - decomposed;

/**
 * Lets the gas of decomposition go from cells with char: the share of heat capacity that is left falls to
 * s = 1 − X·(1 − f·c_char/c), at the same temperature; what the gas carries is booked. f: share of mass that stays, X:
 * conversion, both 1. Never below 0.02, so that a cell keeps a temperature. The capacity is held over a step, so it is
 * taken at the middle of the next one: what is undecomposed falls on as it did from `before` over the last step.
 * before: conversions at the start of the last step; ahead: half of the next step in lengths of the last. Source: own.
 */
export function letGasGo(
  state: ColumnState,
  spec: ColumnSpec,
  surface: ColumnSurface,
  before: Float64Array,
  ahead: number,
): void {
  const { conversion, inverseScale, enthalpy, startEnthalpy, width, material } = state;
  for (let i = state.first; i < state.grid.layerCount; i++) {
    const layer = spec.layers[material[i]];
    if (!layer.char || conversion[i] === 0) continue;
    const kept = (layer.char.fraction * layer.char.heatCapacity) / layer.heatCapacity;
    const left = 1 - conversion[i];
    const fall = left === 0 || before[i] >= 1 ? 1 : Math.min(1, left / (1 - before[i]));
    const scale = Math.max(leastLeft, 1 - (1 - left * fall ** ahead) * (1 - kept));
    const held = 1 / inverseScale[i];
    if (scale === held) continue;
    const full = enthalpy[i] * inverseScale[i];
    surface.carried += (full - startEnthalpy[i]) * (held - scale) * width[i];
    enthalpy[i] = full * scale;
    inverseScale[i] = 1 / scale;
  }
}

/** Whether the heat of ablation or boiling of a cell is paid. */
function paid(state: ColumnState, i: number): boolean {
  return state.enthalpy[i] * state.inverseScale[i] >= state.table.leaveTo[state.material[i]];
}

/** Latent heats beyond its own at which a cell below the surface bursts and throws off what lies above. */
const superheat = 0.25;

/** Whether a cell goes with all above it: at the surface when paid, below it when clearly beyond. */
function bursts(state: ColumnState, i: number): boolean {
  if (i === state.first || !paid(state, i)) return paid(state, i);
  const { leaveFrom, leaveTo } = state.table;
  const [from, to] = [leaveFrom[state.material[i]], leaveTo[state.material[i]]];
  return state.enthalpy[i] * state.inverseScale[i] >= to + superheat * (to - from);
}

function nothingLeft(state: ColumnState, spec: ColumnSpec, i: number): boolean {
  if (i >= state.grid.layerCount) return false;
  const char = spec.layers[state.material[i]].char;
  return !!char && char.fraction < leastLeft && state.conversion[i] >= decomposed;
}

/** A thickness of cell i leaves with an enthalpy (J/m³): books its heat, reaction and depth. */
function book(state: ColumnState, surface: ColumnSurface, i: number, thickness: number, enthalpy: number): void {
  surface.carried += (enthalpy - state.startEnthalpy[i] / state.inverseScale[i]) * thickness;
  if (i < state.grid.layerCount) {
    surface.reactionGone += state.reactionHeat[i] * state.conversion[i] * thickness;
    surface.goneLayer += thickness;
  } else surface.goneMetal += thickness;
}

/** Takes away all cells above `next`; a paid one hands what it took up beyond its latent heat to the next of its kind. */
function takeAway(state: ColumnState, surface: ColumnSurface, next: number): void {
  const { enthalpy, inverseScale, width, inverseWidth, material } = state;
  for (let i = state.first; i < next; i++) {
    let leaves = enthalpy[i];
    if (paid(state, i) && material[i + 1] === material[i]) {
      leaves = state.table.leaveTo[material[i]] / inverseScale[i];
      enthalpy[i + 1] += (enthalpy[i] - leaves) * width[i] * inverseWidth[i + 1];
    }
    book(state, surface, i, width[i], leaves);
  }
  state.first = next;
}

function setWidth(state: ColumnState, i: number, width: number): void {
  state.width[i] = width;
  state.inverseWidth[i] = 1 / width;
}

/** The cell at the surface gives off what has paid its latent heat and stays behind, thinner, where that heat begins. */
function giveOff(state: ColumnState, surface: ColumnSurface): boolean {
  const { first: i, enthalpy, inverseScale, material, table, width } = state;
  const from = table.leaveFrom[material[i]] / inverseScale[i];
  const to = table.leaveTo[material[i]] / inverseScale[i];
  if (!(enthalpy[i] > from)) return false;
  const leaves = Math.min(1, (enthalpy[i] - from) / (to - from)) * width[i];
  if (leaves >= width[i]) return false;
  book(state, surface, i, leaves, to);
  enthalpy[i] = from;
  setWidth(state, i, width[i] - leaves);
  return true;
}

/** A cell at the surface thinner than this share of what it was is joined to the next; the last of its layer leaves later. */
const thinnest = 0.25;
const nothing = 0.02;

/** Joins a thin cell at the surface to the next of its kind; sums are kept. */
function join(state: ColumnState): boolean {
  const { first: i, width, grid, material, enthalpy, inverseScale, startEnthalpy, conversion } = state;
  const thin = width[i] < thinnest * (grid.edges[i + 1] - grid.edges[i]);
  if (!thin || material[i + 1] !== material[i] || i + 1 >= grid.count - 2) return false;
  const whole = width[i] + width[i + 1];
  const part = width[i] / whole;
  const mean = (a: number, b: number) => part * a + (1 - part) * b;
  const scale = mean(1 / inverseScale[i], 1 / inverseScale[i + 1]);
  const start = mean(startEnthalpy[i] / inverseScale[i], startEnthalpy[i + 1] / inverseScale[i + 1]);
  enthalpy[i + 1] = mean(enthalpy[i], enthalpy[i + 1]);
  inverseScale[i + 1] = 1 / scale;
  startEnthalpy[i + 1] = start / scale;
  if (i + 1 < grid.layerCount) conversion[i + 1] = mean(conversion[i], conversion[i + 1]);
  setWidth(state, i + 1, whole);
  state.first = i + 1;
  return true;
}

/** m of metal boiled below layers that throws them off: at the pressure of the air its vapour is some 10 µm thick. */
const lifting = 10e-9;

/** Metal boiled below the layers, m. */
function boiledBelow(state: ColumnState): number {
  const { enthalpy, width, table, grid } = state;
  const metal = table.leaveFrom.length - 1;
  const from = table.leaveFrom[metal];
  const latent = table.leaveTo[metal] - from;
  let sum = 0;
  for (let i = grid.layerCount; i < grid.count && enthalpy[i] > from; i++) {
    sum += width[i] * (latent > 0 ? Math.min(1, (enthalpy[i] - from) / latent) : 1);
  }
  return sum;
}

/**
 * Takes away what has left: what the cell at the surface has paid of its latent heat, every cell that is more than paid
 * together with all that lies above it, layers below which 10 nm of metal boiled, and from the top on cells that
 * decomposed to nothing. Vapour does not come back. The last two cells of the metal never leave. True when something left. Source: own.
 */
export function recede(state: ColumnState, spec: ColumnSpec, surface: ColumnSurface): boolean {
  const m = state.grid.layerCount;
  const end = state.grid.count - 2;
  const before = state.first;
  if (before < m && boiledBelow(state) >= lifting) takeAway(state, surface, m);
  const reach = state.first < m ? m : end;
  for (let i = state.first; i < reach; i++) if (bursts(state, i)) takeAway(state, surface, i + 1);
  while (state.first < end && nothingLeft(state, spec, state.first)) takeAway(state, surface, state.first + 1);
  const gaveOff = giveOff(state, surface);
  if (!gaveOff && state.first === before) return false;
  const now = state.first;
  const whole = state.grid.edges[now + 1] - state.grid.edges[now];
  if (!join(state) && now < end && state.width[now] < nothing * whole) takeAway(state, surface, now + 1);
  state.face[state.first] = 0;
  spreadLight(state, surface);
  return true;
}
