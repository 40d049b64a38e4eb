import type { PlanCandidate, Region } from "./candidates.ts";
import type { DesignName } from "./design-settings.ts";

export interface ReasonInput {
  readonly design: DesignName;
  readonly chosen: readonly PlanCandidate[];
  /** settings that rounding and limits left no room for */
  readonly missing: number;
  readonly replicates: number;
  readonly referenceCount: number;
  readonly coupons: number;
  readonly seed: number;
  readonly scored: boolean;
}

const designWords: Readonly<Record<DesignName, string>> = {
  grid: "a grid over two controls with the others held",
  "space-filling": "spread over the logarithms of the controls so that no two are close",
  factorial: "every combination of low and high, with the centre, filled up by spread settings",
};

/** Why these patches, one sentence each. */
export function planReasons(input: ReasonInput): string[] {
  const { chosen } = input;
  const reasons = [`${plural(chosen.length, "setting")}: ${designWords[input.design]}.`];
  if (input.scored) {
    const count = (region: Region): number => chosen.filter((c) => c.region === region).length;
    reasons.push(
      `${count("clean edge")} lie near the predicted cleaning edge and ${count("damage edge")} near the predicted damage edge (chance 0.2 to 0.8), where a patch teaches most; ${count("inside")} lie inside the predicted window and ${count("outside")} outside.`,
    );
  } else {
    reasons.push("No prediction was handed in, so the settings fill the ranges evenly.");
  }
  if (input.missing > 0) {
    reasons.push(
      `${plural(input.missing, "setting")} fewer than asked for: after rounding to the machine there were no more different ones inside the limits; repeats take their place.`,
    );
  }
  if (input.replicates > 0) {
    reasons.push(
      `${plural(input.replicates, "patch", "patches")} repeat a setting${input.coupons > 1 ? ", on another coupon where that fits" : ""}: only repeats show how far two equal patches differ.`,
    );
  }
  if (input.referenceCount > 0) {
    reasons.push(
      `${plural(input.referenceCount, "reference patch", "reference patches")}: untouched and fully cleaned ones on each coupon, to grade against.`,
    );
  }
  reasons.push(
    `Places and run order are random (seed ${input.seed})${input.coupons > 1 ? ", coupon after coupon" : ""}, so that drift during the day does not pass for an effect.`,
  );
  return reasons;
}

function plural(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}
