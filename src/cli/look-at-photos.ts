import {
  type CouponPlan,
  couponInPhoto,
  type FindMarkers,
  type GradedCoupon,
  lookAtPhoto,
  type PhotoLook,
  summaryOf,
  type PhotoSummary,
} from "#grading";
import { openMarkerFinder } from "#markers";
import { decodePhoto, markerLibrary, mediaTypes } from "#photos";
import { InvalidInput, invalidLine } from "#units";
import { type PhotoFile, readPhoto } from "./photo-list.ts";

/** A photograph that could be decoded. */
export interface KnownPhoto extends PhotoFile {
  readonly sha256: string;
  readonly mediaType: string;
  /** coupon by its markers; null where none of the trial's is in it */
  readonly coupon: number | null;
}

export interface LookOptions {
  say(words: string): void;
  /** keeps the original */
  keep(bytes: Uint8Array, mediaType: string): Promise<void>;
}

export interface LookedAt {
  readonly photos: readonly KnownPhoto[];
  readonly graded: readonly GradedCoupon[];
  /** every photograph, read or not */
  readonly looks: readonly PhotoSummary[];
  /** files that are no photographs, one line each */
  readonly refused: readonly string[];
}

/**
 * Looks at photographs coupon by coupon: each file is decoded once to see which coupon it shows and once more to be read,
 * so that the pictures of one coupon only are in memory.
 */
export async function lookAtPhotos(
  files: readonly PhotoFile[],
  plans: readonly CouponPlan[],
  grade: (plan: CouponPlan, looks: readonly PhotoLook[]) => GradedCoupon,
  { say, keep }: LookOptions,
): Promise<LookedAt> {
  const finder = await openMarkerFinder(markerLibrary());
  try {
    const refused: string[] = [];
    const photos: KnownPhoto[] = [];
    for (const [i, file] of files.entries()) {
      say(`sorting photograph ${i + 1} of ${files.length}: ${file.name}`);
      try {
        const known = await sortPhoto(file, plans, finder.findMarkers, photos, keep);
        photos.push(known);
      } catch (error) {
        if (!(error instanceof InvalidInput)) throw error;
        refused.push(error.where === null ? `${file.name}: ${error.message}` : invalidLine(error));
      }
    }
    const graded: GradedCoupon[] = [];
    const looks: PhotoSummary[] = [];
    let done = 0;
    const lookAt = async (file: KnownPhoto): Promise<PhotoLook> => {
      done += 1;
      say(`reading photograph ${done} of ${photos.length}: ${file.name}`);
      const { photo } = await decodePhoto(await readPhoto(file), file.name);
      return lookAtPhoto(file.name, photo, plans, finder.findMarkers);
    };
    for (const plan of plans) {
      const own: PhotoLook[] = [];
      for (const file of photos) if (file.coupon === plan.coupon) own.push(await lookAt(file));
      looks.push(...own.map(summaryOf));
      if (own.some((look) => look.coupon === plan.coupon)) graded.push(grade(plan, own));
    }
    for (const file of photos) if (file.coupon === null) looks.push(summaryOf(await lookAt(file)));
    return { photos, graded, looks, refused };
  } finally {
    finder.close();
  }
}

async function sortPhoto(
  file: PhotoFile,
  plans: readonly CouponPlan[],
  findMarkers: FindMarkers,
  before: readonly KnownPhoto[],
  keep: LookOptions["keep"],
): Promise<KnownPhoto> {
  const bytes = await readPhoto(file);
  const { photo, kind, sha256 } = await decodePhoto(bytes, file.name);
  const twin = before.find((p) => p.sha256 === sha256);
  if (twin !== undefined) throw new InvalidInput("photo", file.name, "", `is the same file as ${twin.name}`);
  const mediaType = mediaTypes[kind];
  await keep(bytes, mediaType);
  // Of a single coupon there is nothing to sort: reading it finds the markers anyway.
  const coupon = plans.length === 1 ? plans[0].coupon : couponInPhoto(photo, plans, findMarkers);
  return { ...file, sha256, mediaType, coupon };
}
