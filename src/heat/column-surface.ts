import { row } from "./column-material.ts";
import { requireLight } from "./column-refuse.ts";
import type { ColumnLight, ColumnSpec } from "./column-spec.ts";
import type { ColumnState } from "./column-state.ts";

const { TEMPERATURE_SLOPE } = row;

/** The light of a column and what has left it. */
export interface ColumnSurface {
  light: ColumnLight;
  /** sum of all shares */
  absorbedShare: number;
  /** share of the incident fluence per metre of each cell, 1/m */
  readonly share: Float64Array;
  /** share of each layer cell, without that of the metal's surface */
  readonly cellShare: Float64Array;
  /** share taken in no depth at the outer surface: the skin, and what belonged to cells that have left */
  topShare: number;
  /** half conductances at the face to the metal, W/(m²·K), held over a step */
  halfLayer: number;
  halfMetal: number;
  /** m of layer decomposed or gone when the light was last asked */
  litAt: number;
  /** first cell at that time */
  litFrom: number;
  /** m, its width at that time */
  litWidth: number;
  lightUpdates: number;
  /** J/m² above the start that left with gas and vapour, and heat of reaction of what left */
  carried: number;
  reactionGone: number;
  /** m that left from the top */
  goneLayer: number;
  goneMetal: number;
}

export function columnSurface(state: ColumnState, spec: ColumnSpec): ColumnSurface {
  const light = typeof spec.light === "function" ? spec.light(state.grid) : spec.light;
  const surface: ColumnSurface = {
    light,
    absorbedShare: requireLight(light, state.grid.layerCount),
    share: new Float64Array(state.grid.count + 1),
    cellShare: new Float64Array(state.grid.layerCount),
    topShare: 0,
    halfLayer: 0,
    halfMetal: 0,
    litAt: 0,
    litFrom: 0,
    litWidth: state.width[0],
    lightUpdates: 0,
    carried: 0,
    reactionGone: 0,
    goneLayer: 0,
    goneMetal: 0,
  };
  spreadLight(state, surface);
  return surface;
}

/**
 * Shares of every cell; what belongs to cells that have left falls on the first that is still there. A cell that grew
 * thinner since the light was asked takes less by as much, the cell below it the rest.
 */
export function spreadLight(state: ColumnState, surface: ColumnSurface): void {
  const { first, width, inverseWidth } = state;
  const { share, cellShare, light } = surface;
  const m = state.grid.layerCount;
  surface.topShare = light.topShare ?? 0;
  for (let i = 0; i < m; i++) {
    if (i < first) surface.topShare += light.layerShares[i];
    cellShare[i] = i < first ? 0 : light.layerShares[i];
  }
  if (first + 1 < m && first === surface.litFrom && width[first] < surface.litWidth) {
    const rest = light.layerShares[first] * (1 - width[first] / surface.litWidth);
    cellShare[first] -= rest;
    cellShare[first + 1] += rest;
  }
  if (first < m) cellShare[first] += surface.topShare;
  for (let i = 0; i < m; i++) share[i] = cellShare[i] * inverseWidth[i];
  for (let i = m; i < first; i++) share[i] = 0;
  // With layers above, the share of the metal is split between both sides of the face by `setFaces`.
  if (first >= m) share[first] = (surface.topShare + light.metalShare) * inverseWidth[first];
}

/** m of layer decomposed or gone. */
function takenDown(state: ColumnState, surface: ColumnSurface): number {
  const { conversion, width, first } = state;
  let sum = surface.goneLayer;
  for (let i = first; i < state.grid.layerCount; i++) sum += conversion[i] * width[i];
  return sum;
}

/** Asks the light again when cells left, or so much of the layers has changed that the spec wants it. t: s. */
export function followLight(state: ColumnState, spec: ColumnSpec, surface: ColumnSurface, t: number): void {
  if (spec.lightStep === undefined || typeof spec.light !== "function") return;
  const now = takenDown(state, surface);
  if (now - surface.litAt < spec.lightStep && state.first === surface.litFrom) return;
  surface.litAt = now;
  surface.litFrom = state.first;
  surface.litWidth = state.width[state.first];
  surface.lightUpdates++;
  surface.light = spec.light(state.grid, {
    time: t,
    firstCell: state.first,
    conversion: state.conversion,
    width: state.width,
  });
  surface.absorbedShare = requireLight(surface.light, state.grid.layerCount);
  spreadLight(state, surface);
}

/** W/(m·K) of a cell in its present state: the table at its temperature, and char as far as it has formed. */
export function cellConductivity(state: ColumnState, spec: ColumnSpec, i: number): number {
  const k = state.table.rows[state.piece[i] + row.CONDUCTIVITY];
  const char = i < state.grid.layerCount ? spec.layers[state.material[i]].char : null;
  return char ? k + state.conversion[i] * (char.conductivity - k) : k;
}

/** A front is kept this share of a cell away from its faces. */
const nearest = 0.02;

/**
 * Share of a cell at a latent heat that lies above the front: the part on the hot side that has taken it up. Held where
 * the front is, its temperature moves through the cell, and the front not in steps of cells.
 */
function placeInCell(state: ColumnState, i: number): number {
  const { rows } = state.table;
  const { temperature, first, grid } = state;
  const o = state.piece[i];
  const taken =
    (state.enthalpy[i] * state.inverseScale[i] - rows[o + row.FROM]) / (rows[o + row.TO] - rows[o + row.FROM]);
  const share = Math.min(1 - nearest, Math.max(nearest, taken));
  const fromBelow = i > first && i + 1 < grid.count && temperature[i + 1] > temperature[i - 1];
  return fromBelow ? 1 - share : share;
}

/** Factor k(X)/k of a cell that chars, 1 for all others. */
function charFactor(state: ColumnState, spec: ColumnSpec, i: number): number {
  const char = i < state.grid.layerCount ? spec.layers[state.material[i]].char : null;
  if (!char) return 1;
  return 1 + state.conversion[i] * (char.conductivity / state.table.rows[state.piece[i] + row.CONDUCTIVITY] - 1);
}

/** Conductances between cells of one material: 1 over the distances from place to place, 1/m. */
function followCells(state: ColumnState, spec: ColumnSpec): void {
  const { width, face, first, grid, piece, chars } = state;
  const { rows } = state.table;
  let above = 0;
  for (let i = first; i < grid.count; i++) {
    const whole = chars ? width[i] / charFactor(state, spec, i) : width[i];
    const place = rows[piece[i] + TEMPERATURE_SLOPE] === 0 ? placeInCell(state, i) : 0.5;
    if (i > first) face[i] = 1 / (above + place * whole);
    above = (1 - place) * whole;
  }
}

/** Conductances that depend on the state, and the light at the face to the metal split by them; they hold for one step. */
export function setFaces(state: ColumnState, spec: ColumnSpec, surface: ColumnSurface): void {
  const { width, face, joints, inverseWidth, first } = state;
  const { light, share } = surface;
  const m = state.grid.layerCount;
  followCells(state, spec);
  for (let j = 0; joints[j] < state.grid.count; j++) {
    const i = joints[j];
    if (i <= first) continue;
    const above = (2 * cellConductivity(state, spec, i - 1)) / width[i - 1];
    const below = (2 * cellConductivity(state, spec, i)) / width[i];
    face[i] = (above * below) / (above + below);
    if (i < m) continue;
    surface.halfLayer = above;
    surface.halfMetal = below;
    const split = light.metalShare / (above + below);
    share[m - 1] = (surface.cellShare[m - 1] + split * above) * inverseWidth[m - 1];
    share[m] = split * below * inverseWidth[m];
  }
}
