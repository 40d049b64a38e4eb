import type { AcceptanceTest, MetalConditionGrade } from "./enquiry.ts";
import type { Kelvin, Metre, Second } from "./quantities.ts";
import type { Setting } from "./setting.ts";

export type PatchRole = "test" | "replicate" | "untouched" | "cleaned-reference";

/** One planned square on a coupon. Positions in m from the coupon's lower left corner to the patch's lower left corner. */
export interface PlannedPatch {
  readonly patch: number;
  readonly coupon: number;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly role: PatchRole;
  /** null for reference patches */
  readonly setting: Setting | null;
  /** 1-based position in the randomised run order; 0 for untouched */
  readonly runOrder: number;
  /** s to wait after the burn before, so that its heat has spread; absent where it was not worked out */
  readonly wait?: Second;
  /** patch number that this one repeats, or null */
  readonly replicateOf: number | null;
  readonly predictedClean: number | null;
  readonly predictedUndamaged: number | null;
}

export interface Coupon {
  readonly coupon: number;
  /** m */
  readonly width: number;
  readonly height: number;
  readonly label: string;
}

/** What keeps the heat of one patch from the next. */
export interface PatchSpacing {
  /** m between neighbouring patches as they are laid out */
  readonly gap: Metre;
  /** m that alone would keep every neighbour below the limit at all times; null when no gap on this coupon does */
  readonly gapNeeded: Metre | null;
  /** s, longest wait before a patch */
  readonly wait: Second;
  /** K that earlier patches may have warmed a patch by when it is burned */
  readonly limit: Kelvin;
  /** K, highest that the plan comes to with its waits */
  readonly warmest: Kelvin;
  /** K, mean rise of a coupon after its last patch, the highest of all coupons */
  readonly couponRise: Kelvin;
  readonly words: string;
}

export interface Trial {
  readonly id: string;
  readonly enquiryId: string;
  readonly partId: string;
  readonly setupId: string;
  readonly design: string;
  readonly seed: number;
  readonly coupons: readonly Coupon[];
  readonly patches: readonly PlannedPatch[];
  /** absent in plans made without the heat of their patches */
  readonly spacing?: PatchSpacing;
  /** why these patches, one sentence each */
  readonly reasons: readonly string[];
  readonly modelVersion: string;
}

/** What was observed on one patch. SI; null where not observed. */
export interface Outcome {
  readonly trialId: string;
  readonly patch: number;
  readonly residueFraction: number | null;
  /** standard uncertainty of residueFraction, null when not stated */
  readonly residueUncertainty: number | null;
  readonly metalCondition: MetalConditionGrade | null;
  /** CIELAB D65/2° */
  readonly lightness: number | null;
  /** m, Ra before and after */
  readonly roughnessBefore: number | null;
  readonly roughnessAfter: number | null;
  /** m, layer thickness */
  readonly thicknessBefore: number | null;
  readonly thicknessAfter: number | null;
  /** K, hottest reading */
  readonly temperature: number | null;
  readonly tests: readonly AcceptanceTest[];
  readonly grader: string;
  readonly note: string;
}

/** A physical sample as a record. */
export interface Sample {
  readonly id: string;
  readonly enquiryId: string;
  readonly partId: string;
  readonly label: string;
  /** ISO 8601 dates, handed in by the edge */
  readonly received: string | null;
  readonly returned: string | null;
  /** sha256 of the condition photo, or null */
  readonly conditionPhoto: string | null;
  /** thickness readings: position in m, thickness in m */
  readonly thicknessMap: readonly { readonly x: number; readonly y: number; readonly thickness: number }[];
  readonly untouchedWitnessKept: boolean | null;
  readonly note: string;
}
