import { checkSetting, roundToMachine } from "#beam";
import { normalCdf } from "#numerics";
import type { LaserSetup, Setting, Trial } from "#terms";
import {
  type AxialKind,
  type CouponSize,
  type DesignName,
  type FactorRanges,
  type GridPlan,
  type InformationRow,
  type PatchSize,
  planPatches,
} from "#trial";
import { couponHeat } from "./coupon-heat.ts";
import { featureReader } from "./features.ts";
import { MODEL_VERSION } from "./model-version.ts";
import type { PartModel } from "./part-model.ts";

export interface PlanTrialOptions {
  readonly id: string;
  readonly enquiryId: string;
  /** the setting to plan around, usually the survey's best */
  readonly centre: Setting;
  /** patches in all, references and repeats included */
  readonly count: number;
  /** physics-guided when left out */
  readonly design?: DesignName;
  /** settings for the physics-guided plan, the one that teaches most first */
  readonly guided?: readonly Setting[];
  /** how often each of `guided` is burned, in place of `replicates` */
  readonly times?: readonly number[];
  /** what a D-optimal plan is to settle; probit models at the predicted chances when left out */
  readonly model?: (setting: Setting) => readonly InformationRow[];
  readonly axial?: AxialKind;
  readonly grid?: GridPlan;
  readonly ranges?: FactorRanges;
  readonly replicates?: number;
  readonly seed: number;
  /** K that earlier patches may have warmed a patch by when it is burned */
  readonly gapLimit?: number;
  readonly patch?: PatchSize;
  readonly coupon?: CouponSize;
}

/**
 * Plans the patches of a trial of one part on one set-up around a predicted setting; the physics say where the edges
 * are. Throws InvalidInput on counts and sizes that do not fit.
 */
export function planTrial(model: PartModel, setup: LaserSetup, options: PlanTrialOptions): Trial {
  const features = featureReader(model, setup);
  const plan = planPatches({
    setup,
    centre: options.centre,
    count: options.count,
    ...(options.design ? { design: options.design } : {}),
    ...(options.guided ? { guided: options.guided } : {}),
    ...(options.times ? { times: options.times } : {}),
    ...(options.model ? { model: options.model } : {}),
    ...(options.axial ? { axial: options.axial } : {}),
    ...(options.grid ? { grid: options.grid } : {}),
    ...(options.ranges ? { ranges: options.ranges } : {}),
    soak: couponHeat(model, setup, options.gapLimit, options.patch),
    replicates:
      options.times?.reduce((sum, times) => sum + times - 1, 0) ??
      options.replicates ??
      Math.min(6, Math.floor(options.count / 8)),
    seed: options.seed,
    score: (setting) => {
      const f = features(setting);
      return { clean: normalCdf(f.cleanScore), undamaged: normalCdf(f.undamagedScore) };
    },
    roundToMachine: (setting) => roundToMachine(setup, setting),
    check: (setting) => checkSetting(setup, setting),
    ...(options.patch ? { patch: options.patch } : {}),
    ...(options.coupon ? { coupon: options.coupon } : {}),
  });
  return {
    id: options.id,
    enquiryId: options.enquiryId,
    partId: model.part.id,
    setupId: setup.id,
    design: options.design ?? "physics-guided",
    seed: options.seed,
    coupons: plan.coupons,
    patches: plan.patches,
    ...(plan.spacing ? { spacing: plan.spacing } : {}),
    reasons: plan.reasons,
    modelVersion: MODEL_VERSION,
  };
}
