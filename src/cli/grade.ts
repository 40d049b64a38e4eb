import { join } from "node:path";
import {
  type GradingWire,
  outcomeFromWire,
  outcomesToCsv,
  parseEnquiry,
  parseRulingsCsv,
  seenReadings,
} from "#contract";
import { rulerLength } from "#drawing";
import { type CouponPlan, couponPlans, wrongReadings } from "#grading";
import type { Store } from "#store";
import type { Trial } from "#terms";
import { invalid } from "#units";
import { partCautions, photoPathOf } from "#workflows";
import { readJson, readText, writeWhole } from "./files.ts";
import { gradeLines } from "./grade-show.ts";
import { gradePhotos } from "./grade-photos.ts";
import { gradedPicture } from "./graded-picture.ts";
import { flatName, type GradingFile } from "./gradings.ts";
import { loadLibrary, loadTrial, partOf } from "./load.ts";
import type { LookedAt } from "./look-at-photos.ts";
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
  const progress = progressLine(flags);
  const cautions = partCautions(part, library.setup(trial.setupId));
  const { looked, gradings } = await gradePhotos({
    trial,
    part,
    plans,
    printScale,
    files,
    rulings,
    cautions,
    say: progress.say,
    keep: async (bytes, mediaType) => {
      await store?.savePhoto(bytes, mediaType);
    },
  }).finally(progress.clear);
  const wires = gradings.map(({ grading }) => grading);
  const written = await write(flags, trial, gradings);
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
    ...gradeLines(trial, looked, photoPathOf(part), learnt),
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

async function write(flags: GradeFlags, trial: Trial, gradings: readonly GradingFile[]): Promise<string[]> {
  const written: string[] = [];
  const put = async (name: string, content: string | Uint8Array) => {
    written.push(join(flags.out, name));
    await writeWhole(join(flags.out, name), content);
  };
  for (const { grading, flat } of gradings) {
    await put(`${grading.id}.graded.json`, `${json(grading)}\n`);
    await put(`${grading.id}.graded.svg`, gradedPicture(trial, grading, flat));
    if (flat !== null) await put(flatName(grading), flat);
  }
  const outcomes = gradings.flatMap(({ grading }) => grading.patches.flatMap(({ outcome }) => outcome ?? []));
  if (outcomes.length > 0)
    await put(`${trial.id}.photographs.outcomes.csv`, outcomesToCsv(outcomes.map(outcomeFromWire)));
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
