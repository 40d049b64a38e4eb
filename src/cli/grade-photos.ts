import { createHash } from "node:crypto";
import { type GradingWire, gradingToWire } from "#contract";
import { type CouponPlan, gradeTrialCoupon, type PatchRuling, withRulings } from "#grading";
import type { PartEnquiry, Trial } from "#terms";
import { photoPathOf } from "#workflows";
import { flatPicture } from "./graded-picture.ts";
import type { GradingFile } from "./gradings.ts";
import { type LookedAt, type LookOptions, lookAtPhotos } from "./look-at-photos.ts";
import type { PhotoFile } from "./photo-list.ts";

export interface GradePhotos extends LookOptions {
  readonly trial: Trial;
  readonly part: PartEnquiry;
  readonly plans: readonly CouponPlan[];
  readonly printScale: number;
  readonly files: readonly PhotoFile[];
  readonly rulings: readonly PatchRuling[];
  readonly cautions: readonly string[];
}

/** Photographs of a trial graded, rulings put over the readings, and a picture of each coupon laid flat and kept. */
export async function gradePhotos(
  given: GradePhotos,
): Promise<{ readonly looked: LookedAt; readonly gradings: readonly GradingFile[] }> {
  const { trial, part, plans, rulings, files } = given;
  const path = photoPathOf(part);
  const looked = await lookAtPhotos(
    files,
    plans,
    (plan, looks) =>
      withRulings(
        gradeTrialCoupon(trial, plan, looks, part.acceptance, path),
        rulings.filter((r) => plan.patches.some((p) => p.patch === r.patch)),
      ),
    given,
  );
  const hashes = new Map(looked.photos.map(({ name, sha256 }) => [name, sha256]));
  const gradings: GradingFile[] = [];
  for (const coupon of looked.graded) {
    const flat = await flatPicture(coupon, looked.photos);
    if (flat !== null) await given.keep(flat, "image/jpeg");
    const grading: GradingWire = gradingToWire(coupon, {
      enquiryId: trial.enquiryId,
      printScale: given.printScale,
      cautions: given.cautions,
      flat: flat && createHash("sha256").update(flat).digest("hex"),
      sha256: (name) => hashes.get(name) ?? "",
    });
    gradings.push({ grading, flat });
  }
  return { looked, gradings };
}
