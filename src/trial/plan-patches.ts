import { createRandom } from "#numerics";
import type { Coupon, LaserSetup, PlannedPatch, Setting } from "#terms";
import { invalid, requireInteger, requireOneOf } from "#units";
import { assignSlots, type BurnItem } from "./assign-slots.ts";
import { CandidatePool, fillPool, type PatchScore, type PlanCandidate } from "./candidates.ts";
import { chooseSpread, regionQuotas, repeatOrder } from "./choose-settings.ts";
import { type DesignName, factorialSettings, type GridPlan, gridSettings } from "./design-settings.ts";
import { type FactorRanges, factorsAround } from "./factors.ts";
import {
  couponCapacity,
  couponDefault,
  type CouponSize,
  layoutCoupon,
  patchDefault,
  type PatchSize,
} from "./layout-coupon.ts";
import { planReasons } from "./plan-reasons.ts";

export interface PlanInput {
  readonly setup: LaserSetup;
  /** the best predicted setting, or the user's own */
  readonly centre: Setting;
  readonly ranges?: FactorRanges;
  /** all patches on the coupons, references and repeats included */
  readonly count: number;
  readonly design?: DesignName;
  /** patches of `count` that repeat another one */
  readonly replicates: number;
  readonly seed: number;
  /** predicted chances of a setting; without it the plan fills the ranges evenly */
  readonly score?: (setting: Setting) => PatchScore;
  readonly roundToMachine: (setting: Setting) => Setting;
  /** throws InvalidInput when the set-up cannot run the setting */
  readonly check: (setting: Setting) => void;
  readonly patch?: PatchSize;
  readonly coupon?: CouponSize;
  /** untouched patches per coupon, 1 */
  readonly untouched?: number;
  /** fully cleaned reference patches per coupon, 1 */
  readonly cleanedReference?: number;
  readonly grid?: GridPlan;
  /** most settings to score, which is what planning costs; 384 */
  readonly candidatesMax?: number;
}

export interface PatchPlan {
  readonly patches: readonly PlannedPatch[];
  readonly coupons: readonly Coupon[];
  readonly reasons: readonly string[];
}

/**
 * Plans the patches of a trial: settings by the design (space-filling: Sobol points in the logarithms of the
 * controls, a third near each predicted edge, spread by maximin), rounded to the machine, inside its coupled limits,
 * no setting twice except as a stated repeat; references on every coupon; places and run order random from the seed.
 * Units as in the records, SI. The same input gives the same plan.
 * Throws InvalidInput on counts, ranges and sizes that do not fit, or a centre that the set-up cannot run.
 */
export function planPatches(input: PlanInput): PatchPlan {
  const design = input.design ?? "space-filling";
  requireOneOf("design", design, ["grid", "space-filling", "factorial"]);
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
  const chosen = chooseSettings(input, design, distinct);
  const order = repeatOrder(chosen);
  const items: BurnItem[] = chosen.map((candidate) => ({ candidate, repeats: null }));
  for (let k = 0; items.length < count - referenceCount; k++) {
    const candidate = order[k % order.length]!;
    items.push({ candidate, repeats: chosen.indexOf(candidate) });
  }
  const { coupons, slots } = layoutCoupon({ patch, coupon, count });
  const patches = assignSlots(items, slots, patch, references, createRandom(input.seed).substream(1));
  const reasons = planReasons({
    design,
    chosen,
    missing: distinct - chosen.length,
    replicates: items.length - chosen.length,
    referenceCount,
    coupons: coupons.length,
    seed: input.seed,
    scored: input.score !== undefined,
  });
  return { patches, coupons, reasons };
}

/** The distinct settings of the plan, the centre among them for every design but the grid. */
function chooseSettings(input: PlanInput, design: DesignName, distinct: number): PlanCandidate[] {
  const factors = factorsAround(input.setup, input.centre, input.ranges);
  const pool = new CandidatePool(factors, input);
  const chosen: PlanCandidate[] = [];
  const wanted: Setting[] = [];
  if (design === "grid") wanted.push(...gridSettings(input.centre, factors, distinct, input.grid));
  else wanted.push(input.centre);
  if (design === "factorial") wanted.push(...factorialSettings(input.centre, factors, distinct - 1));
  for (const setting of wanted) {
    const candidate = pool.add(setting);
    if (candidate !== null && chosen.length < distinct) chosen.push(candidate);
  }
  if (chosen.length < distinct) {
    const quotas = regionQuotas(distinct);
    const enough = (candidates: readonly PlanCandidate[]): boolean => {
      if (candidates.length < 3 * distinct) return false;
      if (input.score === undefined) return true;
      return (["clean edge", "damage edge", "inside"] as const).every(
        (region) => candidates.filter((c) => c.region === region).length >= 2 * quotas[region],
      );
    };
    fillPool(pool, input.centre, factors, input.seed, Math.max(input.candidatesMax ?? 384, 2 * distinct), enough);
    chosen.push(...chooseSpread(pool.candidates, chosen, distinct - chosen.length));
  }
  return chosen;
}
