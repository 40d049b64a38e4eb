import { type CouponPlan, frameFor } from "#grading";
import { gridPatches } from "../../tests/photo/grid-patches.ts";

/** columns, rows, rim and gap in m: 24, 40 and 60 patches on a coupon of 150 x 100 mm */
const layouts = [
  [6, 4, 10e-3, 5e-3],
  [8, 5, 9e-3, 4.5e-3],
  [10, 6, 8e-3, 4e-3],
] as const;
/** m between lines of the scan, finer than a photograph tells: streaks are not judged here */
const lineSpacing = 0.1e-3;

/** The coupon of a seed with 24, 40 or 60 patches, or with the most. */
export function planOf(seed: number, most = false): CouponPlan {
  const coupon = 1 + (seed % 31);
  const frame = frameFor({ width: 150e-3, height: 100e-3 }, { coupon });
  const [columns, rows, rim, gap] = layouts[most ? 2 : seed % layouts.length]!;
  const patches = gridPatches(frame, columns, rows, rim, gap).map((p) => ({ ...p, lineSpacing }));
  return { coupon, label: String(coupon), frame, patches };
}
