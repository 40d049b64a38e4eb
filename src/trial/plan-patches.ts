import { lensOf } from "#beam";
import { createRandom } from "#numerics";
import type { Coupon, PatchSpacing, PlannedPatch } from "#terms";
import { invalid, requireInteger, requireOneOf } from "#units";
import { assignSlots, type BurnItem } from "./assign-slots.ts";
import { choosePlan } from "./choose-plan.ts";
import { repeatOrder } from "./choose-settings.ts";
import { designNames } from "./design-settings.ts";
import { couponCapacity, couponDefault, layoutCoupon, patchDefault, type PatchSize } from "./layout-coupon.ts";
import type { PlanInput } from "./plan-input.ts";
import { planReasons } from "./plan-reasons.ts";
import { soakedGap, soakedRun } from "./soak-plan.ts";

export interface PatchPlan {
  readonly patches: readonly PlannedPatch[];
  readonly coupons: readonly Coupon[];
  readonly reasons: readonly string[];
  /** how far apart and how long after one another; null without the heat of the patches */
  readonly spacing: PatchSpacing | null;
}

/**
 * Plans the patches of a trial: settings by the design (physics-guided where none is named), rounded to the machine,
 * inside its coupled limits, no setting twice except as a stated repeat; shared over coupons with references on each;
 * places and run order random from the seed; a gap and waits that keep patches from warming each other.
 * Units as in the records, SI. The same input gives the same plan.
 * Throws InvalidInput on counts, ranges and sizes that do not fit, or a centre that the set-up cannot run.
 */
export function planPatches(input: PlanInput): PatchPlan {
  const design = requireOneOf("design", input.design ?? designNames[0], designNames);
  const patch = input.patch ?? patchDefault;
  const coupon = input.coupon ?? couponDefault;
  const count = requireInteger("count", input.count, 1, 2000);
  const replicates = requireInteger("replicates", input.replicates, 0, count);
  requireInteger("seed", input.seed);
  const references = {
    untouched: requireInteger("untouched", input.untouched ?? 1, 0, 20),
    cleaned: requireInteger("cleanedReference", input.cleanedReference ?? 1, 0, 20),
  };
  const { columns, rows } = couponCapacity(patch, coupon);
  const couponsNeeded = Math.ceil(count / (columns * rows));
  const referenceCount = couponsNeeded * (references.untouched + references.cleaned);
  const distinct = count - referenceCount - replicates;
  if (distinct < 1) {
    invalid("count", count, "patches", `more than ${referenceCount} references and ${replicates} repeats need`);
  }
  input.check(input.roundToMachine(input.centre));
  requireInField(input, patch);
  const { chosen, factors, notes } = choosePlan(input, design, distinct);
  if (chosen.length === 0) invalid("design", design, "", "no setting of it that the set-up can run");
  const order = repeatOrder(chosen);
  const items: BurnItem[] = chosen.map((candidate) => ({ candidate, repeats: null }));
  input.times?.slice(0, chosen.length).forEach((times, k) => {
    for (let n = 1; n < times && items.length < count - referenceCount; n++)
      items.push({ candidate: chosen[k]!, repeats: k });
  });
  for (let k = 0; items.length < count - referenceCount; k++) {
    const candidate = order[k % order.length]!;
    items.push({ candidate, repeats: chosen.indexOf(candidate) });
  }
  const settings = chosen.map((candidate) => candidate.setting);
  const gap = input.soak === undefined ? null : soakedGap(input.soak, settings, patch, coupon, count, couponsNeeded);
  const apart = { ...coupon, gap: gap?.gap ?? coupon.gap };
  const { coupons, slots } = layoutCoupon({ patch, coupon: apart, count });
  const random = createRandom(input.seed).substream(1);
  const placed = assignSlots(items, slots, patch, apart.gap, references, random);
  const soaked = gap === null ? null : soakedRun(input.soak!, gap, placed.patches, patch, coupon);
  const reasons = planReasons({
    design,
    notes,
    chosen,
    missing: distinct - chosen.length,
    replicates: items.length - chosen.length,
    referenceCount,
    coupons: coupons.length,
    couponCorrelation: factors.length === 0 ? null : placed.couponCorrelation,
    touching: placed.touching,
    spacing: soaked?.spacing ?? null,
    seed: input.seed,
    scored: input.score !== undefined,
    guided: input.guided !== undefined,
  });
  return { patches: soaked?.patches ?? placed.patches, coupons, reasons, spacing: soaked?.spacing ?? null };
}

/** A patch is burned without moving the coupon: it lies inside the scan field. */
function requireInField(input: PlanInput, patch: PatchSize): void {
  const { id, fieldSide } = lensOf(input.setup, input.centre.lens);
  for (const side of ["width", "height"] as const) {
    if (patch[side] > fieldSide * (1 + 1e-9)) {
      const mm = (metres: number): number => Number((1e3 * metres).toPrecision(6));
      invalid(`patch ${side}`, mm(patch[side]), "mm", `at most ${mm(fieldSide)} mm, the scan field of ${id}`);
    }
  }
}
