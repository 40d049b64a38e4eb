import {
  type EnquiryFile,
  gradingToWire,
  type GradingWire,
  resolveEnquiry,
  type TrialWire,
  trialFromWire,
} from "#contract";
import {
  couponInPhoto,
  type CouponPlan,
  couponPlans,
  type FindMarkers,
  type Gate,
  type GradedCoupon,
  lookAtPhoto,
  type Photo,
  type PhotoLook,
  rectifiedCoupon,
} from "#grading";
import { createLibrary, type LibraryFile } from "#library";
import { openMarkerFinder } from "#markers";
import { decodePhoto, encodeJpeg, markerLibrary } from "#photos";
import { InvalidInput, invalid } from "#units";
import { bestLook, gradeTrial, partCautions } from "#workflows";

/** A kept photograph under the name that a person knows it by. */
export interface NamedPhoto {
  readonly name: string;
  readonly sha256: string;
}

export interface GradeWork {
  readonly trial: TrialWire;
  readonly enquiry: EnquiryFile;
  /** the store's own library files */
  readonly library: readonly LibraryFile[];
  readonly photos: readonly NamedPhoto[];
  /** measured over nominal length of the printed ruler */
  readonly printScale?: number;
  /** CIELAB lightness of the seven grey steps as measured */
  readonly greys?: readonly number[];
}

export interface GradedPhotographs {
  /** one for each coupon that is in any photograph, and the JPEG that shows it laid flat */
  readonly gradings: readonly { readonly grading: GradingWire; readonly flat: Uint8Array | null }[];
  /** photographs that show none of the trial's coupons, with the reasons */
  readonly unread: readonly { readonly name: string; readonly gates: readonly Gate[] }[];
  /** files that are no photographs, one line each */
  readonly refused: readonly { readonly name: string; readonly error: string }[];
}

/** Bytes of an original by the sha256 of them; null where it is not kept. */
export type PhotoOf = (sha256: string) => Promise<Uint8Array | null>;

/**
 * Kept photographs of a trial to graded coupons, as plain data so that another thread can do it. The photographs are
 * sorted first, so that the pictures of one coupon only are in memory. Throws InvalidInput in one line.
 */
export async function gradePhotographs(work: GradeWork, photoOf: PhotoOf): Promise<GradedPhotographs> {
  const trial = trialFromWire(work.trial);
  const library = createLibrary(work.library);
  const part =
    resolveEnquiry(work.enquiry, library).parts.find((p) => p.id === trial.partId) ??
    invalid("part", trial.partId, "", "the enquiry has no such part any more");
  const plans = couponPlans(trial, {
    ...(work.printScale === undefined ? {} : { printScale: work.printScale }),
    ...(work.greys === undefined ? {} : { measuredGreys: work.greys }),
  });
  if (plans.length === 0) invalid("trial", trial.id, "", "has no coupon with a frame");
  const context = {
    enquiryId: trial.enquiryId,
    printScale: work.printScale ?? 1,
    cautions: partCautions(part, library.setup(trial.setupId)),
    sha256: (name: string) => work.photos.find((p) => p.name === name)?.sha256 ?? "",
  };
  const finder = await openMarkerFinder(markerLibrary());
  try {
    const refused: { name: string; error: string }[] = [];
    const sorted = await sortPhotos(work.photos, plans, finder.findMarkers, decoderOf(photoOf, refused));
    const gradings: { grading: GradingWire; flat: Uint8Array | null }[] = [];
    const unread: { name: string; gates: readonly Gate[] }[] = [];
    for (const plan of [...plans, null]) {
      const looks: PhotoLook[] = [];
      for (const named of sorted) {
        if (named.coupon !== (plan?.coupon ?? null)) continue;
        const photo = await decoderOf(photoOf, refused)(named);
        if (photo !== null) looks.push(lookAtPhoto(named.name, photo, plans, finder.findMarkers));
      }
      for (const { photo, coupon, gates } of looks)
        if (coupon === null) unread.push({ name: photo, gates: plainGates(gates) });
      for (const graded of plan === null ? [] : gradeTrial(trial, part, [plan], looks)) {
        const grading = gradingToWire(graded, context);
        gradings.push({ grading, flat: await flatOf(graded, context.sha256, photoOf) });
      }
    }
    return { gradings, unread, refused };
  } finally {
    finder.close();
  }
}

const plainGates = (gates: readonly Gate[]): Gate[] => gates.map(({ gate, sentence }) => ({ gate, sentence }));

async function bytesOf(sha256: string, photoOf: PhotoOf): Promise<Uint8Array> {
  return (await photoOf(sha256)) ?? invalid("photo", sha256, "", "is not kept: send it first");
}

interface SortedPhoto extends NamedPhoto {
  /** null where none of the trial's is in it */
  readonly coupon: number | null;
}

type Decode = (photo: NamedPhoto) => Promise<Photo | null>;

/** Decodes an original; one that is no photograph is noted with its line. */
function decoderOf(photoOf: PhotoOf, refused: { name: string; error: string }[]): Decode {
  return async ({ name, sha256 }) => {
    const bytes = await bytesOf(sha256, photoOf);
    try {
      return (await decodePhoto(bytes)).photo;
    } catch (error) {
      if (!(error instanceof InvalidInput)) throw error;
      refused.push({ name, error: error.message });
      return null;
    }
  };
}

/** Which coupon each photograph shows. With one coupon there is nothing to sort: reading it tells. */
async function sortPhotos(
  photos: readonly NamedPhoto[],
  plans: readonly CouponPlan[],
  findMarkers: FindMarkers,
  decode: Decode,
): Promise<SortedPhoto[]> {
  const [first] = plans;
  if (first !== undefined && plans.length === 1) return photos.map((photo) => ({ ...photo, coupon: first.coupon }));
  const sorted: SortedPhoto[] = [];
  for (const named of photos) {
    const photo = await decode(named);
    if (photo !== null) sorted.push({ ...named, coupon: couponInPhoto(photo, plans, findMarkers) });
  }
  return sorted;
}

/** The photograph that shows the coupon best, laid flat, as a JPEG file. */
async function flatOf(
  graded: GradedCoupon,
  sha256: (name: string) => string,
  photoOf: PhotoOf,
): Promise<Uint8Array | null> {
  const look = bestLook(graded);
  if (look === null) return null;
  const { photo } = await decodePhoto(await bytesOf(sha256(look.photo), photoOf), look.photo);
  return encodeJpeg(rectifiedCoupon(photo, look.map, graded.plan.frame));
}
