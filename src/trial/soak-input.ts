import type { PlateBody } from "#heat";
import type { Setting } from "#terms";

/** Heat that one patch takes in while it is burned. */
export interface BurnHeat {
  /** J absorbed by the coupon */
  readonly energy: number;
  /** s from first to last light, turn-rounds included */
  readonly duration: number;
}

/** What the spacing of patches is worked out from. */
export interface SoakInput {
  /** the metal of the coupon */
  readonly plate: PlateBody;
  /** W/(m²·K) that leaves by both faces together, above 0 */
  readonly loss: number;
  /** K that a neighbour may be warmed by, 15 */
  readonly limit?: number;
  readonly burn: (setting: Setting) => BurnHeat;
}

/** Limit of the rise at a neighbouring patch, K (own choice: a hundredth of what melts most metals). */
export const soakLimitDefault = 15;
