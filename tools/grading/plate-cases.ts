import { type CouponPlan, frameFor } from "#grading";
import { gridPatches } from "../../tests/photo/grid-patches.ts";
import { type Plate, makePlate } from "../../tests/photo/plate.ts";
import type { ShotSpec } from "../../tests/photo/photograph.ts";

/** One plate of the survey with the photographs that are taken of it. */
export interface PlateCase {
  readonly seed: number;
  readonly glare: boolean;
  readonly plan: CouponPlan;
  readonly plate: Plate;
  readonly shots: readonly ShotSpec[];
}

/** columns, rows, rim and gap in m: 24, 40 and 60 patches on a coupon of 150 x 100 mm */
const layouts = [
  [6, 4, 10e-3, 5e-3],
  [8, 5, 9e-3, 4.5e-3],
  [10, 6, 8e-3, 4e-3],
] as const;

/** px, a picture that fits on a screen; the largest that a phone gives */
export const usual = { width: 2000, height: 1500 } as const;
export const largest = { width: 4000, height: 3000 } as const;

/** m between lines of the scan, drawn finer than a photograph tells: streaks are not judged here */
const lineSpacing = 0.1e-3;

/**
 * The plate of a seed: coupon, number of patches and everything on it follow from the seed. Without glare one
 * photograph, with glare four, the plate turned by a quarter between them.
 */
export function plateCase(seed: number, glare: boolean, size: { width: number; height: number } = usual): PlateCase {
  const coupon = 1 + (seed % 31);
  const frame = frameFor({ width: 150e-3, height: 100e-3 }, { coupon });
  const [columns, rows, rim, gap] = layouts[size === largest ? 2 : seed % layouts.length]!;
  const patches = gridPatches(frame, columns, rows, rim, gap);
  const plan: CouponPlan = {
    coupon,
    label: String(coupon),
    frame,
    patches: patches.map((p) => ({ ...p, lineSpacing })),
  };
  const turns = glare ? ([0, 1, 2, 3] as const) : ([0] as const);
  return {
    seed,
    glare,
    plan,
    plate: makePlate({ seed, frame, patches }),
    shots: turns.map((turn) => ({ seed, turn, ...size, glare })),
  };
}
