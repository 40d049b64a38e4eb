import { type Posterior, shiftNames } from "#calibration";
import { createRandom } from "#numerics";
import type { LaserSetup, NextPatch, Setting } from "#terms";
import { invalid } from "#units";
import {
  type Choice,
  type ChoiceTable,
  choiceAt,
  chooseFastest,
  choiceTable,
  LEVELS,
  likeliest,
  nextPicks,
  perHundred,
  productionDrift,
  rayTruth,
  sameSetting,
  type TruthDraws,
  truthDraws,
} from "#window";
import { edgeBook } from "./edge-book.ts";
import { type Evaluation, EVIDENCE_RAYS } from "./evaluate-window.ts";

export interface TransferOptions {
  readonly seed: number;
  readonly rays?: number;
  /** lens of the other set-up to keep to; all of its lenses when left out */
  readonly lens?: string;
  /** settings of the first quick look that the rays are chosen from */
  readonly looks?: number;
  /** rays of the other set-up that are solved, and how many there are */
  readonly onProgress?: (done: number, of: number) => void;
}

export interface Transfer {
  /** setting on the other set-up, null where none keeps the acceptance with the widened spread */
  readonly setting: Setting | null;
  /** m²/s */
  readonly areaRate: number;
  /** share of the versions, widened, that keep it */
  readonly share: number;
  /** the few patches to burn at acceptance, in this order */
  readonly verification: readonly NextPatch[];
  readonly words: readonly string[];
}

/** Spread that a shift gains by another set-up, as a share of its prior spread: of the same kind of source, and of another. */
const WIDENED = { same: 0.5, other: 1 } as const;
const REPEATS = 3;

/**
 * Carries what a trial taught over to another source or lens: every version of the physics keeps its chance and answers for
 * the other set-up through its own fluence, width and spot; the shifts are widened, and drawn anew for another kind of
 * source, whose shapes are anchored elsewhere.
 *
 * Equation: shift' = shift + w·z, z standard normal, w 0.5; another kind of source: shift' = z.
 * Units: as in the evaluation. Range: set-ups of the library's kinds. Errors: InvalidInput on a lens that the set-up lacks.
 * Source: own rule; a set-up's figures are known to about the spread of its spot and power, its misfit is not.
 */
export function transferWindow(
  evaluation: Evaluation,
  from: LaserSetup,
  to: LaserSetup,
  options: TransferOptions,
): Transfer {
  const { model, posterior } = evaluation;
  if (options.lens !== undefined && !to.lenses.some((l) => l.id === options.lens))
    invalid("lens", options.lens, "", `${to.id} has ${to.lenses.map((l) => l.id).join(", ")}`);
  const setup =
    options.lens === undefined ? to : { ...to, lenses: to.lenses.filter((lens) => lens.id === options.lens) };
  const book = edgeBook(model, setup, {
    burnedOnly: true,
    seed: model.seed,
    rays: options.rays ?? EVIDENCE_RAYS,
    ...(options.looks === undefined ? {} : { looks: options.looks }),
    ...(options.onProgress === undefined ? {} : { onProgress: options.onProgress }),
  });
  const truths = widenedTruths(posterior, from, to, options.seed);
  const table = choiceTable(truths, book.rays, productionDrift);
  const none = { burned: 0, good: 0 };
  const { confidence } = model.part.acceptance;
  const choice = chooseFastest(table, confidence, () => none);
  const shown = choice ?? likeliest(table);
  const words = [
    from.kind === to.kind
      ? `Carried from ${from.name} to ${to.name}: what was learnt of layer and metal stays, the misfit of the physics is widened by half of its prior spread.`
      : `Carried from ${from.name} to ${to.name}, another kind of source: what was learnt of layer and metal stays, the misfit of the physics is not known there and drawn from its prior.`,
    choice
      ? `In ${perHundred(choice.share)} versions so widened this setting is clean and undamaged under drift; it has not been burned on this laser.`
      : `No setting keeps ${Math.round(100 * confidence)} of 100 versions with the spread so widened: burn the patches below before anything is promised.`,
  ];
  return {
    setting: choice?.setting ?? null,
    areaRate: choice?.areaRate ?? 0,
    share: choice?.share ?? 0,
    verification: shown ? verificationPatches(book.rays[shown.family]!, shown, choice !== null, table, truths) : [],
    words,
  };
}

function widenedTruths(posterior: Posterior, from: LaserSetup, to: LaserSetup, seed: number): TruthDraws {
  const truths = truthDraws(posterior);
  const random = createRandom(seed).substream(31);
  const phi = Float64Array.from(truths.phi);
  const same = from.kind === to.kind;
  for (let s = 0; s < truths.count; s++) {
    for (let k = 0; k < shiftNames.length; k++) {
      const at = s * truths.size + k;
      phi[at] = same ? phi[at]! + WIDENED.same * random.normal() : WIDENED.other * random.normal();
    }
  }
  return { ...truths, phi, kind: to.kind };
}

/** The choice, one patch near each of its edges, the likeliest faster one, and the choice again twice. */
function verificationPatches(
  ray: Parameters<typeof rayTruth>[1],
  choice: Choice,
  /** whether the choice is sure enough to be carried */
  settled: boolean,
  table: ChoiceTable,
  truths: TruthDraws,
): NextPatch[] {
  const truth = rayTruth(truths, ray, productionDrift);
  const along = LEVELS.map((x) => choiceAt(truth, x, choice.family));
  const nearest = (read: (c: Choice) => number) =>
    along.reduce((a, b) => (Math.abs(read(b) - 0.5) < Math.abs(read(a) - 0.5) ? b : a));
  const patch = ({ setting, clean, undamaged }: Choice, reason: string): NextPatch => ({
    setting,
    probabilityClean: clean,
    probabilityUndamaged: undamaged,
    reason,
  });
  const list = [
    patch(
      choice,
      settled
        ? "The carried setting itself."
        : "The likeliest setting of this laser: none is sure enough to be carried.",
    ),
  ];
  const low = nearest((c) => c.clean);
  const high = nearest((c) => c.undamaged);
  if (Math.abs(low.clean - 0.5) < 0.4 && !sameSetting(low.setting, choice.setting))
    list.push(patch(low, "Where the layer is as likely to stay as to go: it places the removal edge on this laser."));
  if (Math.abs(high.undamaged - 0.5) < 0.4 && !sameSetting(high.setting, choice.setting))
    list.push(patch(high, "Where the metal is as likely to suffer as not: it places the damage edge on this laser."));
  const { picks } = nextPicks({
    table,
    n: 1,
    choice,
    repeats: () => ({ burned: REPEATS, good: REPEATS }),
    patches: 0,
    burned: (s) => sameSetting(s, choice.setting),
  });
  for (const pick of picks)
    list.push(patch(pick.choice, `A faster setting that ${perHundred(pick.choice.share)} versions keep.`));
  for (let k = 1; k < REPEATS; k++)
    list.push(patch(choice, `The first setting again: ${REPEATS} clean repeats before it is called proven here.`));
  return list;
}
