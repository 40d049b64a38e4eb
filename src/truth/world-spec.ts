import type { Acceptance, DriftCase, LaserSetup, MetalConditionGrade, Setting } from "#terms";
import type { RandomStream } from "#numerics";

/**
 * "narrow": the best of a few settings around the reference leaves between 0.1 and 0.3 in ln power between its edges.
 * "nothing works": no candidate is clean and undamaged on half of the production days.
 */
export type WorldKind = "as anchored" | "narrow" | "nothing works";

export interface WorldSpec {
  readonly seed: number;
  readonly setup: LaserSetup;
  readonly acceptance: Pick<Acceptance, "residueMax" | "metalConditionMax">;
  /** m, whole coat */
  readonly nominalThickness: number;
  /** two layers: the upper comes off by another law than the lower, and both must go */
  readonly layers: 1 | 2;
  /** a setting of the set-up at which the world's edges equal an anchor */
  readonly reference: Setting;
  /** ln power factor on the reference at which it becomes clean and at which its metal becomes damaged; one is picked by the seed */
  readonly anchors: readonly { readonly lnClean: number; readonly lnDamage: number }[];
  readonly kind: WorldKind;
  /** settings of which none may work, for "nothing works" */
  readonly candidates?: readonly Setting[];
  /** production days for "nothing works" */
  readonly drift?: readonly DriftCase[];
}

/** What a patch shows. */
export interface BurnedPatch {
  /** share as read, between 0 and 1 */
  readonly residueFraction: number;
  readonly metalCondition: MetalConditionGrade;
  /** m, coat that lay on this patch before */
  readonly thickness: number;
}

export interface World {
  readonly seed: number;
  readonly kind: WorldKind;
  /** every drawn number by name */
  readonly laws: Readonly<Record<string, number>>;
  /** One patch on a coupon, read by a grader (default 0): scatter from `random`, effects of plate and grader fixed per world. */
  readonly burn: (setting: Setting, coupon: number, random: RandomStream, grader?: number) => BurnedPatch;
  /** Share of the production days on which a patch is clean, undamaged, and both; no coupon scatter, plate or grader. */
  readonly chance: (setting: Setting, drift: readonly DriftCase[]) => TrueChance;
  /** ln power factor on the setting at which a patch of nominal thickness becomes clean and damaged; ±3 where none nearer */
  readonly edges: (setting: Setting) => { readonly lnClean: number; readonly lnDamage: number };
}

export interface TrueChance {
  readonly clean: number;
  readonly undamaged: number;
  readonly both: number;
}
