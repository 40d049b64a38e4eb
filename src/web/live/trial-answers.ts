import type { LaserSetup, Setting, SiteLimits, Trial, WindowResult } from "#terms";
import { couponCapacity, couponDefault, type DesignName, patchDefault } from "#trial";
import { invalid } from "#units";
import {
  type EdgeBook,
  edgeBook,
  evaluateWindow,
  EVIDENCE_RAYS,
  evidenceModel,
  type PartModel,
  planTrial,
  priorPlan,
  surveySetup,
} from "#workflows";
import type { Ask } from "./protocol.ts";

/** Rehearsals behind the forecast of a plan: each some tenths of a second. */
const REHEARSALS = 12;
const coupon = couponCapacity(patchDefault, couponDefault);

export interface PlanAsk {
  readonly trialId: string;
  readonly enquiryId: string;
  readonly site: SiteLimits;
  readonly design: DesignName;
  readonly count: number;
  readonly seed: number;
  readonly rehearsals?: number;
  /** settings to choose the physics-guided ones from */
  readonly rays?: number;
}

/**
 * A trial by the design asked for, around the best setting that the physics predicts. The physics-guided one takes the
 * settings that teach most and says how many patches the question may need. Throws InvalidInput where no setting fits the
 * site, or the design does not fit the patches.
 */
export function planAnswer(model: PartModel, setup: LaserSetup, ask: PlanAsk): Trial {
  const { count, design, seed } = ask;
  const { best } = surveySetup(model, setup, ask.site, null);
  if (!best) return invalid("laser", setup.name, "", "no setting of it fits the limits of the site");
  const common = { id: ask.trialId, enquiryId: ask.enquiryId, centre: best.setting, count, design, seed };
  if (design !== "physics-guided") return planTrial(model, setup, common);
  const { settings, words } = priorPlan(model, setup, {
    seed: model.seed,
    count,
    rehearsals: ask.rehearsals ?? REHEARSALS,
    perCoupon: coupon.columns * coupon.rows,
    ...(ask.rays === undefined ? {} : { rays: ask.rays }),
  });
  const trial = planTrial(model, setup, { ...common, guided: settings });
  return { ...trial, reasons: [...trial.reasons, ...words] };
}

/** What is solved once for a trial and asked again: which settings there are, with the edges of every version. */
interface Solved {
  readonly model: PartModel;
  readonly book: EdgeBook;
}

/**
 * Windows of trials. The settings of a trial are solved once and kept, so that a change of how sure, or one more row of
 * outcomes, is answered in about a second. `forget` when the part changes.
 */
export class WindowDesk {
  readonly #solved = new Map<string, Solved>();
  readonly #rays: number;

  /** `rays` settings are looked at beside those burned. */
  constructor(rays = EVIDENCE_RAYS) {
    this.#rays = rays;
  }

  forget(): void {
    this.#solved.clear();
  }

  answer(
    model: PartModel,
    setup: LaserSetup,
    { trial, outcomes, confidence }: Pick<Ask<"window">, "trial" | "outcomes" | "confidence">,
    progress: (done: number, total: number) => void,
  ): { readonly window: WindowResult; readonly versions: number } {
    const settings = settingsOf(trial);
    const key = JSON.stringify([model.part.id, setup.id, model.draws.length, settings]);
    const solved = this.#solved.get(key) ?? solve(model, setup, settings, this.#rays, progress);
    this.#solved.set(key, solved);
    const { part } = solved.model;
    const asked = { ...solved.model, part: { ...part, acceptance: { ...part.acceptance, confidence } } };
    const versions = asked.draws.length;
    const window = evaluateWindow(asked, setup, trial, outcomes, {
      seed: model.seed,
      draws: versions,
      book: solved.book,
    });
    return { window, versions };
  }
}

function solve(
  given: PartModel,
  setup: LaserSetup,
  settings: readonly Setting[],
  rays: number,
  progress: (done: number, total: number) => void,
): Solved {
  const model = evidenceModel(given);
  const book = edgeBook(model, setup, {
    seed: model.seed,
    rays: rays + settings.length,
    include: settings,
    onProgress: progress,
  });
  return { model, book };
}

/** The settings of a trial, each once. */
function settingsOf(trial: Trial): Setting[] {
  const settings = trial.patches.flatMap((p) => (p.setting ? [p.setting] : []));
  return [...new Map(settings.map((s) => [JSON.stringify(s), s])).values()];
}
