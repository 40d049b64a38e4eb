import type { PlateRectangle } from "../geometry/coarse-plate.ts";
import { type PlateMap, slopesAt } from "../geometry/pose.ts";
import type { CouponPatch, CouponPlan } from "./coupon-plan.ts";

/** m of layer around a patch that its light is read from, at most and at least. */
const MARGIN = { most: 1.8e-3, least: 0.8e-3 } as const;
/** m that a neighbour's ragged outline may reach out. */
const OUTLINE = 0.4e-3;

/** Whether a rectangle of the plate with a margin around it lies wholly in the picture. margin: m. */
export function inPicture(
  map: PlateMap,
  { x, y, width, height }: PlateRectangle,
  margin: number,
  photo: { readonly width: number; readonly height: number },
): boolean {
  return [x - margin, x + width + margin].every((px) =>
    [y - margin, y + height + margin].every((py) => {
      const { u, v } = map.toPixel(px, py);
      return u >= 0 && v >= 0 && u <= photo.width && v <= photo.height;
    }),
  );
}

/** px/mm in the middle of a rectangle: square root of the picture's area over the plate's. */
export function scaleAt(map: PlateMap, { x, y, width, height }: PlateRectangle): number {
  const [a, b, c, d] = slopesAt(map, { x: x + width / 2, y: y + height / 2 });
  return Math.sqrt(Math.abs(a * d - b * c)) / 1000;
}

/**
 * m of untouched layer around a patch that reaches neither a neighbour nor the edge of the coupon; 0 where less than
 * 0.8 mm is left, so that its light is not read there.
 */
export function marginOf(patch: CouponPatch, { patches, frame }: CouponPlan): number {
  let free = Math.min(
    patch.x,
    patch.y,
    frame.couponWidth - patch.x - patch.width,
    frame.couponHeight - patch.y - patch.height,
  );
  for (const other of patches) {
    if (other.patch === patch.patch || other.role === "untouched") continue;
    const across = Math.max(other.x - patch.x - patch.width, patch.x - other.x - other.width);
    const up = Math.max(other.y - patch.y - patch.height, patch.y - other.y - other.height);
    free = Math.min(free, Math.max(across, up) - OUTLINE);
  }
  return free < MARGIN.least ? 0 : Math.min(MARGIN.most, free);
}
