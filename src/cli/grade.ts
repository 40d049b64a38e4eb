import { join } from "node:path";
import { type GradingWire, gradingToWire, outcomesToCsv, parseEnquiry, parseRulingsCsv, seenReadings } from "#contract";
import { rulerLength } from "#drawing";
import {
  type CouponPlan,
  couponPlans,
  type GradedCoupon,
  gradeTrialCoupon,
  withRulings,
  wrongReadings,
} from "#grading";
import type { Store } from "#store";
import type { Trial } from "#terms";
import { invalid } from "#units";
import { partCautions, photoPathOf } from "#workflows";
import { readJson, readText, writeWhole } from "./files.ts";
import { gradeLines } from "./grade-show.ts";
import { gradedPicture } from "./graded-picture.ts";
import { loadLibrary, loadTrial, partOf } from "./load.ts";
import { type LookedAt, lookAtPhotos } from "./look-at-photos.ts";
import { listPhotos } from "./photo-list.ts";
import { progressLine } from "./progress.ts";
import { cautionLines, json } from "./show.ts";
import { withStore } from "./with-store.ts";

export interface GradeFlags {
  readonly trial: string;
  readonly enquiry: string;
  readonly photos: readonly string[];
  /** mm, as measured on the printed ruler */
  readonly ruler?: number;
  readonly greys?: readonly number[];
  readonly rulings?: string;
  readonly library?: readonly string[];
  readonly out: string;
  readonly data?: string;
  readonly json?: boolean;
}

/** Plans of the coupons with the frame as it came out of the printer. */
function plansOf(trial: Trial, flags: GradeFlags): { plans: CouponPlan[]; printScale: number } {
  const greys = flags.greys === undefined ? {} : { measuredGreys: flags.greys };
  const drawn = couponPlans(trial, greys);
  const [first] = drawn;
  if (first === undefined) return invalid("trial", trial.id, "", "has no coupon with a frame");
  if (flags.ruler === undefined) return { plans: drawn, printScale: 1 };
  const nominal = Math.round(rulerLength(first.frame) * 1000);
  const printScale = flags.ruler / nominal;
  if (!(printScale >= 0.9 && printScale <= 1.1))
    invalid("ruler", flags.ruler, "mm", `within a tenth of the ${nominal} mm that the frame sheet says`);
  return { plans: couponPlans(trial, { ...greys, printScale }), printScale };
}

/** `grade`: photographs of the coupons to readings, outcomes and marked pictures. */
export async function gradeVerb(flags: GradeFlags): Promise<string> {
  return flags.data === undefined ? grade(flags, null) : withStore(flags.data, (store) => grade(flags, store));
}

async function grade(flags: GradeFlags, store: Store | null): Promise<string> {
  const library = await loadLibrary(flags.library);
  const enquiry = parseEnquiry(await readJson(flags.enquiry, "enquiry"), library);
  const trial = await loadTrial(flags.trial);
  const part = partOf(enquiry, trial);
  const { plans, printScale } = plansOf(trial, flags);
  const rulings =
    flags.rulings === undefined ? [] : parseRulingsCsv(await readText(flags.rulings, "rulings file"), trial);
  const files = await listPhotos(flags.photos);
  const path = photoPathOf(part);
  const progress = progressLine(flags);
  const looked = await lookAtPhotos(
    files,
    plans,
    (plan, looks) => {
      const coupon = gradeTrialCoupon(trial, plan, looks, part.acceptance, path);
      return withRulings(
        coupon,
        rulings.filter((r) => plan.patches.some((p) => p.patch === r.patch)),
      );
    },
    {
      say: progress.say,
      keep: async (bytes, mediaType) => {
        await store?.savePhoto(bytes, mediaType);
      },
    },
  ).finally(progress.clear);
  const cautions = partCautions(part, library.setup(trial.setupId));
  const hashes = new Map(looked.photos.map(({ name, sha256 }) => [name, sha256]));
  const wires = looked.graded.map((coupon) =>
    gradingToWire(coupon, {
      enquiryId: trial.enquiryId,
      printScale,
      cautions,
      sha256: (name) => hashes.get(name) ?? "",
    }),
  );
  const written = await write(flags, trial, looked, wires, cautions);
  if (store !== null) await keep(store, wires);
  const learnt = wrongReadings(wires.map(seenReadings));
  if (flags.json)
    return json({
      trial: trial.id,
      gradings: wires,
      refused: looked.refused,
      unread: unread(looked),
      wrongReadings: learnt,
    });
  return [
    ...gradeLines(trial, looked, path, learnt),
    "",
    ...written.map((file) => `wrote ${file}`),
    "",
    ...cautionLines(cautions),
  ].join("\n");
}

/** Photographs that show none of the trial's coupons stand in no grading: said here. */
const unread = ({ looks }: LookedAt) =>
  looks
    .filter(({ coupon }) => coupon === null)
    .map(({ photo, gates }) => ({ photo, gates: gates.map(({ gate, sentence }) => ({ gate, sentence })) }));

async function write(
  flags: GradeFlags,
  trial: Trial,
  { graded, photos }: LookedAt,
  wires: readonly GradingWire[],
  cautions: readonly string[],
): Promise<string[]> {
  const base = join(flags.out, trial.id);
  const written: string[] = [];
  const put = async (path: string, content: string | Uint8Array) => {
    await writeWhole(path, content);
    written.push(path);
  };
  for (const [k, coupon] of graded.entries()) {
    const name = `${base}.coupon-${coupon.coupon}.graded`;
    await put(`${name}.json`, `${json(wires[k])}\n`);
    await put(`${name}.svg`, await gradedPicture(coupon, photos, cautions));
  }
  const outcomes = graded.flatMap(({ patches }: GradedCoupon) => patches.flatMap(({ outcome }) => outcome ?? []));
  if (outcomes.length > 0) await put(`${base}.photographs.outcomes.csv`, outcomesToCsv(outcomes));
  return written;
}

/** Gradings are kept in versions; outcomes only where the trial itself is kept. */
async function keep(store: Store, wires: readonly GradingWire[]): Promise<void> {
  await store.write(async (tx) => {
    for (const wire of wires) {
      await tx.put("grading", wire);
      const outcomes = wire.patches.flatMap(({ outcome }) => outcome ?? []);
      if (outcomes.length > 0 && (await tx.latest("trial", wire.trial)) !== null)
        await tx.addOutcomes(wire.trial, outcomes);
    }
  });
}
