import { type CouponPlan, type FindMarkers, frameFor, gradeCoupon, lookAtPhoto, type Photo } from "#grading";
import { gridPatches } from "../../photo/grid-patches.ts";
import { photograph, type ShotSpec, type ShotTruth } from "../../photo/photograph.ts";
import { makePlate, type Plate } from "../../photo/plate.ts";
import type { PlateSpec } from "../../photo/plate-spec.ts";

/** A small coupon with 4 x 3 patches, its lines coarse enough to show. */
export function smallPlan(coupon: number, lineSpacing = 1e-3): CouponPlan {
  const frame = frameFor({ width: 80e-3, height: 60e-3 }, { coupon });
  const patches = gridPatches(frame, 4, 3, 6e-3, 4e-3).map((p) => ({ ...p, lineSpacing }));
  return { coupon, label: String(coupon), frame, patches };
}

export interface Taken {
  readonly photo: Photo;
  readonly truth: ShotTruth;
  readonly plate: Plate;
  /** outline in the picture of a rectangle of the plate with a margin, m */
  outline(place: { x: number; y: number; width: number; height: number }, margin?: number): { u: number; v: number }[];
}

/** A plain photograph of a plate with dark paint on steel, but for what is said. */
export async function take(
  plan: CouponPlan,
  shot: Partial<ShotSpec> = {},
  plate: Partial<PlateSpec> = {},
): Promise<Taken> {
  const { frame, patches } = plan;
  const made = makePlate({ seed: 3, frame, patches, metal: "steel", coat: "blue", ...plate });
  const { photo, truth } = await photograph(made, {
    seed: 3,
    width: 1100,
    height: 825,
    glare: false,
    jpeg: false,
    ...shot,
    say: { covered: null, tilt: 0.03, roll: 0.01, white: 0.8, ...shot.say },
  });
  const outline: Taken["outline"] = ({ x, y, width, height }, margin = 0) =>
    (
      [
        [0, 0],
        [1, 0],
        [1, 1],
        [0, 1],
      ] as const
    ).map(([a, b]) => truth.toPixel(x - margin + a * (width + 2 * margin), y - margin + b * (height + 2 * margin)));
  return { photo, truth, plate: made, outline };
}

/** Every gate that fires on photographs of a coupon: on the photographs, on its patches, on the whole. */
export function firedBy(plan: CouponPlan, photos: readonly Photo[], findMarkers: FindMarkers): string[] {
  const looks = photos.map((photo, k) => lookAtPhoto(`photo ${k + 1}`, photo, [plan], findMarkers));
  const { readings, notes } = gradeCoupon(plan, looks);
  return [
    ...new Set(
      [
        ...looks.flatMap(({ gates }) => gates),
        ...readings.flatMap(({ refusals, flags }) => [...refusals, ...flags]),
        ...notes,
      ].map(({ gate }) => gate),
    ),
  ];
}
