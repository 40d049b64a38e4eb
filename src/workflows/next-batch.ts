import type { LaserSetup, NextPatch, Setting, Trial } from "#terms";
import { addBatch, couponDefault, type CouponSize, type PatchSize } from "#trial";
import { invalid } from "#units";
import { sameSetting } from "#window";
import type { PartModel } from "./part-model.ts";
import { planTrial } from "./plan-trial.ts";

export interface BatchOptions {
  readonly seed: number;
  readonly patch?: PatchSize;
  readonly coupon?: CouponSize;
  readonly gapLimit?: number;
}

/** Settings of a batch, each once, with how often it is burned, in the order of the list. */
function counted(next: readonly NextPatch[]): { readonly setting: Setting; readonly times: number }[] {
  const found: { setting: Setting; times: number }[] = [];
  for (const { setting } of next) {
    const same = found.find((f) => sameSetting(f.setting, setting));
    if (same === undefined) found.push({ setting, times: 1 });
    else same.times += 1;
  }
  return found;
}

/**
 * The trial with the next patches laid out on further coupons, each with references of its own, places and turns random,
 * gaps and waits by heat. Throws InvalidInput where there are no next patches or they do not fit the coupon.
 */
export function nextBatch(
  model: PartModel,
  setup: LaserSetup,
  trial: Trial,
  next: readonly NextPatch[],
  options: BatchOptions,
): Trial {
  const burns = counted(next);
  if (burns.length === 0) return invalid("next patches", 0, "", "the trial needs none by its rule");
  const references = 2;
  const plan = planTrial(model, setup, {
    id: trial.id,
    enquiryId: trial.enquiryId,
    centre: burns[0]!.setting,
    count: next.length + references,
    design: "physics-guided",
    guided: burns.map((b) => b.setting),
    times: burns.map((b) => b.times),
    seed: options.seed,
    ...(options.patch === undefined ? sizeOf(trial) : { patch: options.patch }),
    coupon: options.coupon ?? couponOf(trial),
    ...(options.gapLimit === undefined ? {} : { gapLimit: options.gapLimit }),
  });
  const number = batchesOf(trial) + 1;
  const earlier = trial.patches.flatMap((p) => p.setting ?? []);
  const again = next.filter(({ setting }) => earlier.some((s) => sameSetting(s, setting))).length;
  return addBatch(
    trial,
    { ...plan, reasons: batchWords(next.length, again, plan.spacing, options.seed) },
    number,
    sameSetting,
  );
}

/** Batches that a trial has, from the labels of its coupons. */
const batchesOf = ({ coupons }: Trial): number =>
  Math.max(1, ...coupons.map(({ label }) => Number(/, batch (\d+)$/.exec(label)?.[1] ?? 1)));

/** Why these patches, in the words of a plan. */
export function batchWords(count: number, again: number, spacing: Trial["spacing"], seed: number): string[] {
  return [
    `${count} patches that the window asked for, ${again} of them at settings that were burned before; untouched and cleaned references on each coupon.`,
    `Places and run order are random (seed ${seed}).`,
    ...(spacing === undefined ? [] : [spacing.words]),
  ];
}

/** A coupon as large as the first one. */
function couponOf({ coupons: [first] }: Trial): CouponSize {
  return first === undefined ? couponDefault : { ...couponDefault, width: first.width, height: first.height };
}

/** Patches as large as before, so that they compare. */
function sizeOf({ patches }: Trial): { readonly patch?: PatchSize } {
  const [first] = patches;
  return first === undefined ? {} : { patch: { width: first.width, height: first.height } };
}
