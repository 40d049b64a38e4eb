import type { PatchSpacing } from "#terms";
import type { PlanCandidate, Region } from "./candidates.ts";
import type { DesignName } from "./design-settings.ts";

export interface ReasonInput {
  readonly design: DesignName;
  /** what the design is and what became of it */
  readonly notes: readonly string[];
  readonly chosen: readonly PlanCandidate[];
  /** settings that rounding and limits left no room for */
  readonly missing: number;
  readonly replicates: number;
  readonly referenceCount: number;
  readonly coupons: number;
  /** largest correlation of a control with the coupon; null where nothing varies */
  readonly couponCorrelation: number | null;
  readonly touching: number;
  readonly spacing: PatchSpacing | null;
  readonly seed: number;
  readonly scored: boolean;
  readonly guided: boolean;
}

/** Why these patches, one sentence each. */
export function planReasons(input: ReasonInput): string[] {
  const { chosen, coupons, touching } = input;
  const reasons = [`${plural(chosen.length, "setting")} by the design ${input.design}.`, ...input.notes];
  if (input.scored) {
    const count = (region: Region): number => chosen.filter((c) => c.region === region).length;
    reasons.push(
      `${count("clean edge")} lie near the predicted cleaning edge and ${count("damage edge")} near the predicted damage edge (chance 0.2 to 0.8), where a patch teaches most; ${count("inside")} lie inside the predicted window and ${count("outside")} outside.`,
    );
  } else if (!input.guided) {
    reasons.push("No prediction was handed in, so the settings fill the ranges evenly.");
  }
  if (input.missing > 0) {
    reasons.push(
      `${plural(input.missing, "setting")} fewer than asked for: after rounding to the machine there were no more different ones inside the limits; repeats take their place.`,
    );
  }
  if (input.replicates > 0) {
    reasons.push(
      `${plural(input.replicates, "patch", "patches")} repeat a setting${coupons > 1 ? ", on another coupon where that fits" : ""}: only repeats show how far two equal patches differ.`,
    );
  }
  if (input.referenceCount > 0) {
    reasons.push(
      `${plural(input.referenceCount, "reference patch", "reference patches")}: untouched and fully cleaned ones on each coupon, to grade against.`,
    );
  }
  if (coupons > 1 && input.couponCorrelation !== null) {
    reasons.push(
      `Settings are shared over the ${coupons} coupons so that a coupon does not pass for an effect: the largest correlation of a control with the coupon is ${input.couponCorrelation.toFixed(2)}.`,
    );
  }
  const follow =
    touching === 0
      ? "no two neighbours follow each other"
      : `${plural(touching, "patch", "patches")} could not but follow a neighbour`;
  reasons.push(
    `Places and run order are random (seed ${input.seed})${coupons > 1 ? ", coupon after coupon" : ""}, so that drift during the day does not pass for an effect; ${follow}.`,
  );
  if (input.spacing !== null) reasons.push(input.spacing.words);
  return reasons;
}

function plural(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}
