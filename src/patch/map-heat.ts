import { type LawTable, oxideGrowthSquared, reactionTime } from "#removal";
import type { Kelvin } from "#terms";
import type { Draw } from "./draw.ts";
import type { EventPhysics } from "./event-physics.ts";
import type { PointHistory } from "./point.ts";
import { CLASS_COUNT } from "./point-spec.ts";
import type { PatchPlan } from "./patch-plan.ts";

/** Where a cell's heat is written. */
export interface HeatMaps {
  readonly bareFluence: Float32Array;
  readonly peak: Float32Array;
  readonly meltDepth: Float32Array;
  readonly melted: Float32Array;
  readonly oxide: Float32Array;
}

export type CellHeat = (point: PointHistory, cell: number, into: HeatMaps) => void;

/** Entries of the table over the linear rise that spares a search per cell. */
const ENTRIES = 512;

/**
 * What the history of a cell did to the metal there: highest bare fluence, peak, melt depth, share melted, oxide.
 *
 * Units: start K; maps as in `PatchMap`. Range: peaks held at boiling. Errors: none.
 * Source: `MetalResponse`, `oxideGrowthSquared`; the same steps as `predictPatch`, cell by cell.
 */
export function cellHeat(draw: Draw, plan: PatchPlan, physics: EventPhysics, law: LawTable, start: Kelvin): CellHeat {
  const { metal } = draw.sample;
  const { response, duration } = physics;
  const startForLaw = Math.min(start, metal.meltingTemperature - 1);
  const onset = response.meltOnset(startForLaw);
  const bareRise = law.metalRise[0]!;
  const highest = 6 * Math.max(onset, metal.meltingTemperature - startForLaw);
  const peaks = new Float64Array(ENTRIES);
  const depths = new Float64Array(ENTRIES);
  for (let i = 0; i < ENTRIES; i++) {
    const rise = (highest * i) / (ENTRIES - 1);
    peaks[i] = Math.min(Math.max(startForLaw + response.rise(rise, startForLaw), start), metal.boilingTemperature);
    depths[i] = rise > onset ? response.meltDepth(rise, startForLaw, duration, draw.metal.diffusivity) : 0;
  }
  const read = (table: Float64Array, rise: number) => {
    const c = Math.min(ENTRIES - 1.000001, (rise / highest) * (ENTRIES - 1));
    const i = Math.floor(c);
    return table[i]! + (c - i) * (table[i + 1]! - table[i]!);
  };
  const warm = metal.oxide
    ? oxideGrowthSquared(metal.oxide, Math.min(start, metal.boilingTemperature), plan.warming.exposure)
    : 0;
  return (point, cell, into) => {
    let hottest = point.covered;
    let molten = 0;
    for (let k = 0; k < CLASS_COUNT; k++) {
      const rise = Math.max(point.after[k]! * bareRise, point.covered);
      hottest = Math.max(hottest, rise);
      if (rise > onset) molten++;
    }
    const peak = read(peaks, hottest);
    into.bareFluence[cell] = point.after[0]!;
    into.peak[cell] = peak;
    into.melted[cell] = start >= metal.meltingTemperature ? 1 : molten / CLASS_COUNT;
    into.meltDepth[cell] = molten > 0 ? read(depths, hottest) : 0;
    if (!metal.oxide) return;
    const events = Math.max(1, point.strong) * plan.setting.passes;
    const time = events * reactionTime(duration, peak, Math.max(hottest, 1e-9), metal.oxide.activationEnergy);
    into.oxide[cell] = Math.sqrt(warm + oxideGrowthSquared(metal.oxide, peak, time));
  };
}
