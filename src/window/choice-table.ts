import type { Ray } from "#edges";
import type { DriftSpread, Setting } from "#terms";
import { type Chance, chanceAt, type RayTruth, rayTruth, type TruthDraws } from "./chances.ts";

/** Share of drifted patches that must be clean and undamaged before a setting meets the acceptance. */
export const MEETS = 0.95;

/** One setting that may be chosen or burned. */
export interface Choice {
  readonly setting: Setting;
  /** m²/s */
  readonly areaRate: number;
  /** 1 in each version of the truth in which it meets the acceptance under drift */
  readonly meets: Uint8Array;
  /** share of versions in which it does */
  readonly share: number;
  /** mean chances over the versions, under drift */
  readonly clean: number;
  readonly undamaged: number;
  readonly both: number;
  /** which list of settings of equal controls but power it belongs to */
  readonly family: number;
}

/** Settings with what every version of the truth says of them. */
export interface ChoiceTable {
  readonly draws: number;
  readonly choices: readonly Choice[];
}

/** Powers that are looked at on a ray, ln of a share of the full one. */
export const LEVELS: readonly number[] = Array.from({ length: 20 }, (_, k) => -0.1 * k);

/** A setting of a ray at exp(x) of its power, to the tenth of a per cent that machines take. */
export function atLevel(setting: Setting, x: number): Setting {
  return { ...setting, level: Math.round(setting.level * Math.exp(x) * 1000) / 1000 };
}

/** ln of a level over the full level of a ray. */
export function levelOf(ray: Ray, level: number): number {
  return Math.log(level / ray.setting.level);
}

/**
 * Settings along every ray with the versions of the truth that they meet the acceptance in. Settings that hardly any
 * version gives a chance are left out, but for the likeliest of each ray.
 * Units: drift ln; rates m²/s. Range: any. Errors: none. Source: `chanceAt`.
 */
export function choiceTable(truths: TruthDraws, rays: readonly Ray[], drift: DriftSpread): ChoiceTable {
  const choices = rays.flatMap((ray, family) => choicesOn(rayTruth(truths, ray, drift), family));
  return { draws: truths.count, choices };
}

function choicesOn(truth: RayTruth, family: number): Choice[] {
  const all = LEVELS.map((x) => choiceAt(truth, x, family));
  const likeliest = all.reduce((a, b) => (b.both > a.both ? b : a));
  return all.filter((c) => c === likeliest || c.both > 0.02);
}

/** One setting of a ray, judged in every version of the truth. */
export function choiceAt(truth: RayTruth, x: number, family: number): Choice {
  const { ray } = truth;
  const count = truth.clean.length;
  const meets = new Uint8Array(count);
  const one: Chance = { clean: 0, undamaged: 0, both: 0 };
  let clean = 0;
  let undamaged = 0;
  let both = 0;
  let met = 0;
  for (let s = 0; s < count; s++) {
    chanceAt(truth, x, s, one);
    clean += one.clean;
    undamaged += one.undamaged;
    both += one.both;
    if (one.both >= MEETS) {
      meets[s] = 1;
      met++;
    }
  }
  return {
    setting: atLevel(ray.setting, x),
    areaRate: ray.areaRate,
    meets,
    share: met / count,
    clean: clean / count,
    undamaged: undamaged / count,
    both: both / count,
    family,
  };
}
