import { encodeLinear, linearFromXyz, xyzFromLinear } from "../colour-space.ts";
import type { FrameLayout, Photo } from "../frame.ts";
import { cutPatch } from "../geometry/cut-patch.ts";
import type { PlateMap } from "../geometry/pose.ts";

/** px each way of a rectified picture, at most. */
const LARGEST = 2400;

/**
 * The coupon as a photograph shows it, rectified, for a person to look at: sRGB codes as photographed, not calibrated.
 * map: how the coupon lies; pixelsPerMm: 10 where nothing is said, less for coupons beyond 240 mm. Source: own.
 */
export function rectifiedCoupon(photo: Photo, map: PlateMap, frame: FrameLayout, pixelsPerMm = 10): Photo {
  const { couponWidth: width, couponHeight: height } = frame;
  const scale = Math.min(pixelsPerMm, (LARGEST * 1e-3) / Math.max(width, height));
  const cut = cutPatch(photo, map, { x: 0, y: 0, width, height }, { pixelsPerMm: scale });
  const rgb = new Uint8Array(cut.rgb.length);
  for (let i = 0; i < rgb.length; i += 3) {
    const own: [number, number, number] = [cut.rgb[i]!, cut.rgb[i + 1]!, cut.rgb[i + 2]!];
    const light = photo.space === "srgb" ? own : linearFromXyz(xyzFromLinear(...own, photo.space));
    for (let c = 0; c < 3; c += 1) rgb[i + c] = Math.round(255 * encodeLinear(Math.min(1, Math.max(0, light[c]!))));
  }
  return { width: cut.width, height: cut.height, rgb, space: "srgb" };
}
