import { type FrameLayout, type FrameView, frameFor } from "#grading";
import { openMarkerFinder } from "#markers";
import { markerLibrary } from "#photos";
import { type Camera, type CameraOptions, camera } from "./camera.ts";

export const openFinder = () => openMarkerFinder(markerLibrary());

export const layout = frameFor({ width: 80e-3, height: 60e-3 }, { coupon: 2 });

export const look = (options: Partial<CameraOptions> = {}): Camera =>
  camera({ width: 1000, height: 760, scale: 6500, aim: { x: 42e-3, y: 29e-3 }, ...options });

/** px: how far the corners that were used lie from the truth at worst. */
export function worstCorner(view: FrameView, truth: Camera, plan: FrameLayout = layout): number {
  return Math.max(
    ...view.markers.flatMap(({ id, corners }) => {
      const { x, y, size } = plan.markers.find((m) => m.id === id)!;
      const planned = [
        [x, y + size],
        [x + size, y + size],
        [x + size, y],
        [x, y],
      ] as const;
      return planned.map((at, k) => {
        const pixel = truth.toPixel(...at);
        return Math.hypot(pixel.u - corners[k]!.u, pixel.v - corners[k]!.v);
      });
    }),
  );
}

/** m: how far places on the coupon are taken from where they are at worst. */
export function worstPlace(view: FrameView, truth: Camera, plan: FrameLayout = layout): number {
  let worst = 0;
  for (let i = 0; i <= 8; i += 1) {
    for (let j = 0; j <= 8; j += 1) {
      const [x, y] = [(i / 8) * plan.couponWidth, (j / 8) * plan.couponHeight];
      const pixel = truth.toPixel(x, y);
      const found = view.pose.toPlate(pixel.u, pixel.v);
      worst = Math.max(worst, Math.hypot(found.x - x, found.y - y));
    }
  }
  return worst;
}
