import type { CouponPlan } from "#grading";
import type { ShotSpec } from "../../tests/photo/photograph.ts";
import { makePlate, type Plate } from "../../tests/photo/plate.ts";
import { planOf } from "./coupon-plans.ts";

/** One plate of the survey with the photographs that are taken of it. */
export interface PlateCase {
  readonly seed: number;
  readonly glare: boolean;
  readonly plan: CouponPlan;
  readonly plate: Plate;
  readonly shots: readonly ShotSpec[];
}

/** px: a picture of three megapixels; one as phones give it */
export const usual = { width: 2000, height: 1500 } as const;
export const largest = { width: 4000, height: 3000 } as const;

/**
 * The plate of a seed: coupon, number of patches and everything on it follow from the seed. Without glare one
 * photograph, with glare four, the plate turned by a quarter between them.
 */
export function plateCase(seed: number, glare: boolean, size: { width: number; height: number } = usual): PlateCase {
  const plan = planOf(seed, size === largest);
  const { frame, patches } = plan;
  const turns = glare ? ([0, 1, 2, 3] as const) : ([0] as const);
  return {
    seed,
    glare,
    plan,
    plate: makePlate({ seed, frame, patches }),
    shots: turns.map((turn) => ({ seed, turn, ...size, glare })),
  };
}
