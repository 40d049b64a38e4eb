import type { Acceptance, DriftCase, LaserSetup, Setting } from "#terms";
import type { WorldLaws } from "./draw-laws.ts";
import {
  lnDamageDrive,
  lnPowerAt,
  lnRemovalDrive,
  meanPowerOf,
  type RayConditions,
  rayConditions,
  rayKey,
} from "./ray-conditions.ts";
import { cleanDrive, type LayerOffsets } from "./residue.ts";
import type { SpotShape } from "./spot-shape.ts";

/** What a world is made of before its thresholds are known. */
export interface WorldBase {
  readonly setup: LaserSetup;
  readonly acceptance: Pick<Acceptance, "residueMax" | "metalConditionMax">;
  readonly laws: WorldLaws;
  readonly shape: SpotShape;
}

export interface Thresholds {
  readonly offsets: LayerOffsets;
  readonly lnRemoval: number;
  readonly lnDamage: number;
}

const NOMINAL: DriftCase = { power: 1, spot: 1, speed: 1, thickness: 1 };
export const NOMINAL_DAY: readonly DriftCase[] = [NOMINAL];

/** One ray on one day: the ln mean power (W, as set) from which it is clean, and its conditions for the damage. */
interface RayDay {
  readonly ray: RayConditions;
  readonly lnFactor: number;
  readonly lnClean: number;
}

/** The edges of every ray on every day, each worked out once: settings of a ray differ in power only. */
export interface DayEdges {
  readonly conditions: (setting: Setting) => RayConditions;
  /** ln W as set from which each day is clean, and from which damaged at a damage threshold */
  readonly clean: (setting: Setting, drift: readonly DriftCase[]) => Float64Array;
  readonly damage: (setting: Setting, drift: readonly DriftCase[], lnThreshold: number) => Float64Array;
  readonly lnPower: (setting: Setting) => number;
}

export function dayEdges(base: WorldBase, offsets: LayerOffsets, lnRemoval: number): DayEdges {
  const { setup, laws, shape, acceptance } = base;
  const days = new WeakMap<readonly DriftCase[], Map<string, RayDay[]>>();
  const damages = new WeakMap<readonly RayDay[], { readonly lnThreshold: number; readonly at: Float64Array }>();
  const cleans = new WeakMap<readonly RayDay[], Float64Array>();

  function rayDays(setting: Setting, drift: readonly DriftCase[]): RayDay[] {
    let known = days.get(drift);
    if (!known) days.set(drift, (known = new Map()));
    const key = rayKey(setting);
    let list = known.get(key);
    if (!list) {
      list = drift.map((day) => {
        const ray = rayConditions(setup, setting, laws, shape, day.spot, day.speed);
        const critical = cleanDrive(ray.exposure, laws.layers, offsets, acceptance.residueMax, Math.log(day.thickness));
        const lnFactor = Math.log(day.power);
        const lnClean = lnPowerAt((p) => lnRemovalDrive(ray, laws, p), critical + lnRemoval) - lnFactor;
        return { ray, lnFactor, lnClean };
      });
      known.set(key, list);
    }
    return list;
  }

  return {
    conditions: (setting) => rayDays(setting, NOMINAL_DAY)[0]!.ray,
    lnPower: (setting) => Math.log(meanPowerOf(setup, setting)),
    clean(setting, drift) {
      const list = rayDays(setting, drift);
      let at = cleans.get(list);
      if (!at) cleans.set(list, (at = Float64Array.from(list, (d) => d.lnClean)));
      return at;
    },
    damage(setting, drift, lnThreshold) {
      const list = rayDays(setting, drift);
      const known = damages.get(list);
      if (known?.lnThreshold === lnThreshold) return known.at;
      const at = Float64Array.from(
        list,
        (d) => lnPowerAt((p) => lnDamageDrive(d.ray, laws, p), lnThreshold) - d.lnFactor,
      );
      damages.set(list, { lnThreshold, at });
      return at;
    },
  };
}
