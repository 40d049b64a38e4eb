import { requirePositive } from "#units";
import { coldField } from "./field.ts";
import { axisOf, growingEdges } from "./grid.ts";
import { materialTable, type RefereeMetal } from "./material.ts";
import { March } from "./single-pulse.ts";

/** A thick body whose top is held at a temperature from t = 0 on. */
export interface HeldTop {
  readonly metal: RefereeMetal;
  /** K */
  readonly topTemperature: number;
  readonly startTemperature: number;
  /** s */
  readonly time: number;
  /** m */
  readonly cell: number;
  readonly steps: number;
}

/**
 * Depth of melt under a held top, counted by the latent heat taken up, m: the same balances as everywhere in the
 * referee, in one column of cells, so that it can be held against the exact Stefan front.
 *
 * Units: SI. Range: top hotter than start, time above 0. Errors: `InvalidInput`. Source: own finite volumes.
 */
export function heldTopMelt(held: HeldTop): number {
  const { metal, startTemperature } = held;
  const table = materialTable(metal, null, startTemperature);
  const reach =
    6 * Math.sqrt(table.potentialSlope.reduce((a, b) => Math.max(a, b)) * requirePositive("time", held.time, "s"));
  const z = axisOf(growingEdges(held.cell, reach, 1.1, reach));
  const side = axisOf([0, reach]);
  const field = coldField({ x: side, y: side, z }, table, { front: null, back: null, side: null, bottom: null }, null);
  field.faceZ[0] = 2 / z.width[0];
  let wall = 0;
  for (let p = 0; p + 1 < table.layerPiece && table.temperature[p] < held.topTemperature; p++) {
    const rate = table.potentialSlope[p] / table.temperatureSlope[p];
    if (table.temperatureSlope[p] > 0)
      wall += rate * (Math.min(held.topTemperature, table.temperature[p + 1]) - table.temperature[p]);
  }
  const march = new March(field, wall);
  for (let s = 0; s < held.steps; s++)
    march.step(held.time * (((s + 1) / held.steps) ** 2 - (s / held.steps) ** 2), null);
  let depth = 0;
  for (let k = 0; k < z.width.length; k++) {
    const share = (field.enthalpy[field.first + k] - table.meltFrom) / (table.meltTo - table.meltFrom);
    depth += z.width[k] * Math.min(1, Math.max(0, share));
  }
  return depth;
}
