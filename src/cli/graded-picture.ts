import type { GradingWire } from "#contract";
import { gradedCouponSvg } from "#drawing";
import { type GradedCoupon, rectifiedCoupon } from "#grading";
import { decodePhoto, encodeJpeg } from "#photos";
import type { Trial } from "#terms";
import { bestLook, markedPatches } from "#workflows";
import { type PhotoFile, readPhoto } from "./photo-list.ts";

/** The best photograph of a coupon laid flat, as a JPEG file to look at; null where none shows it. */
export async function flatPicture(graded: GradedCoupon, files: readonly PhotoFile[]): Promise<Uint8Array | null> {
  const look = bestLook(graded);
  const file = files.find(({ name }) => name === look?.photo);
  if (look === null || file === undefined) return null;
  // Decoded once more rather than kept: many photographs would not fit in memory.
  const { photo } = await decodePhoto(await readPhoto(file), file.name);
  return encodeJpeg(rectifiedCoupon(photo, look.map, graded.plan.frame));
}

/** A picture of bytes as an address that a drawing can hold. */
export const jpegAddress = (bytes: Uint8Array): string =>
  `data:image/jpeg;base64,${Buffer.from(bytes).toString("base64")}`;

/** A graded coupon as one SVG with its photograph inside. */
export function gradedPicture(trial: Trial, grading: GradingWire, flat: Uint8Array | null): string {
  const coupon = trial.coupons.find((c) => c.coupon === grading.coupon)!;
  return gradedCouponSvg(markedPatches(trial, grading), {
    width: coupon.width,
    height: coupon.height,
    label: coupon.label,
    trial: trial.id,
    photo: flat === null ? null : jpegAddress(flat),
    cautions: grading.cautions,
    trueSize: true,
  });
}
