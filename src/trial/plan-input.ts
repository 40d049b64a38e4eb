import type { LaserSetup, Setting } from "#terms";
import type { PatchScore } from "./candidates.ts";
import type { AxialKind } from "./central-composite.ts";
import type { DesignName, GridPlan } from "./design-settings.ts";
import type { FactorRanges } from "./factors.ts";
import type { CouponSize, PatchSize } from "./layout-coupon.ts";
import type { SoakInput } from "./soak-input.ts";

/** What one patch says of one question: a regressor row, and the weight of what is seen. */
export interface InformationRow {
  readonly row: readonly number[];
  readonly weight: number;
}

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
  /** settings for the physics-guided plan, the one that teaches most first; taken in this order */
  readonly guided?: readonly Setting[];
  /** how often each of `guided` is burned, in the same order, in place of `replicates`; for a batch that was worked out */
  readonly times?: readonly number[];
  /** the model that a D-optimal plan is to settle, one row per question; without it the chances, else a straight one */
  readonly model?: (setting: Setting) => readonly InformationRow[];
  /** where the axial points of a central composite stand; rotatable */
  readonly axial?: AxialKind;
  readonly roundToMachine: (setting: Setting) => Setting;
  /** throws InvalidInput when the set-up cannot run the setting */
  readonly check: (setting: Setting) => void;
  readonly patch?: PatchSize;
  readonly coupon?: CouponSize;
  /** what is needed to keep neighbouring patches from warming each other; without it the gap stays as it is */
  readonly soak?: SoakInput;
  /** untouched patches per coupon, 1 */
  readonly untouched?: number;
  /** fully cleaned reference patches per coupon, 1 */
  readonly cleanedReference?: number;
  readonly grid?: GridPlan;
  /** most settings to score, which is what planning costs; 384 */
  readonly candidatesMax?: number;
}
