import { gradingToWire, type GradingWire } from "#contract";
import {
  couponInPhoto,
  type CouponPlan,
  couponPlans,
  type FindMarkers,
  type Gate,
  lookAtPhoto,
  type Photo,
  type PhotoLook,
  rectifiedCoupon,
} from "#grading";
import { invalid } from "#units";
import { bestLook, gradeTrial } from "#workflows";
import type {
  FlatPicture,
  NamedPhoto,
  PhotoProgress,
  ReadAnswer,
  ReadAsk,
  SheetAsPrinted,
  SortedPhoto,
} from "./protocol.ts";

/** What reading needs of the world around it. */
export interface ReadingTools {
  decode(photo: NamedPhoto): Promise<Photo>;
  readonly findMarkers: FindMarkers;
  /** a picture as a file */
  toFile(picture: Photo): Promise<Blob>;
  say(progress: PhotoProgress): void;
}

/** Coupons of a trial in their frames, as the sheets came out of the printer. */
export function plansAsPrinted(trial: ReadAsk["trial"], { printScale, greys }: SheetAsPrinted): CouponPlan[] {
  return couponPlans(trial, { printScale, ...(greys === null ? {} : { measuredGreys: greys }) });
}

/**
 * Photographs of a trial to graded coupons, with every photograph laid flat. Those of many coupons are sorted first, so
 * that the pictures of one coupon only are in memory, and that coupons without a new photograph are left as they are. Throws InvalidInput, and whatever `decode` throws.
 */
export async function readPhotographs(ask: ReadAsk, tools: ReadingTools): Promise<ReadAnswer> {
  const { trial, part, photos } = ask;
  const plans = plansAsPrinted(trial, ask);
  if (plans.length === 0) invalid("trial", trial.id, "", "has no coupon with a frame");
  const sorted = await sortPhotos(photos, plans, tools);
  const added = new Set(sorted.filter((p) => p.added).map((p) => p.coupon));
  const wanted = sorted.filter((p) => ask.all || added.has(p.coupon));
  const gradings: GradingWire[] = [];
  const flats: FlatPicture[] = [];
  const unread: { name: string; gates: readonly Gate[] }[] = [];
  const best: Record<number, string> = {};
  const sha256 = (name: string): string => photos.find((p) => p.name === name)?.sha256 ?? "";
  let done = 0;
  for (const plan of [...plans, null]) {
    const looks: PhotoLook[] = [];
    for (const named of wanted) {
      if (named.coupon !== (plan?.coupon ?? null)) continue;
      tools.say({ name: named.name, stage: "reading", done, of: wanted.length });
      const photo = await tools.decode(named);
      const look = lookAtPhoto(named.name, photo, plans, tools.findMarkers);
      const frame = plans.find((p) => p.coupon === look.coupon)?.frame;
      if (look.map !== null && frame !== undefined)
        flats.push({ sha256: named.sha256, file: await tools.toFile(rectifiedCoupon(photo, look.map, frame)) });
      looks.push(look);
      done += 1;
    }
    for (const { photo, coupon, gates } of looks)
      if (coupon === null) unread.push({ name: photo, gates: gates.map(({ gate, sentence }) => ({ gate, sentence })) });
    for (const graded of plan === null ? [] : gradeTrial(trial, part, [plan], looks)) {
      const { printScale, cautions } = ask;
      gradings.push(gradingToWire(graded, { enquiryId: trial.enquiryId, printScale, cautions, sha256 }));
      const shown = bestLook(graded);
      if (shown !== null) best[graded.coupon] = sha256(shown.photo);
    }
  }
  tools.say({ name: "", stage: "reading", done, of: wanted.length });
  return { gradings, flats, best, unread };
}

interface Sorted extends SortedPhoto {
  /** new to the trial */
  readonly added: boolean;
}

/**
 * Which coupon each photograph shows, where that is not known yet; null where it shows none. With one coupon there is
 * nothing to sort: reading it tells.
 */
async function sortPhotos(
  photos: readonly SortedPhoto[],
  plans: readonly CouponPlan[],
  tools: ReadingTools,
): Promise<Sorted[]> {
  const [first] = plans;
  const one = first !== undefined && plans.length === 1 ? first.coupon : null;
  const of = photos.filter((p) => p.coupon === null).length;
  let done = 0;
  const sorted: Sorted[] = [];
  for (const photo of photos) {
    const added = photo.coupon === null;
    let coupon = photo.coupon ?? one;
    if (coupon === null) {
      tools.say({ name: photo.name, stage: "sorting", done, of });
      coupon = couponInPhoto(await tools.decode(photo), plans, tools.findMarkers);
      done += 1;
    }
    sorted.push({ ...photo, coupon, added });
  }
  return sorted;
}
