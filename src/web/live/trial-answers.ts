import type { LaserSetup, SiteLimits, Trial, WindowResult } from "#terms";
import { couponCapacity, couponDefault, type DesignName, patchDefault } from "#trial";
import { invalid } from "#units";
import {
  type EdgeBook,
  evaluateWindow,
  evidenceModel,
  type PartModel,
  planTrial,
  priorPlan,
  surveySetup,
  trialBook,
} from "#workflows";
import type { Ask } from "./protocol.ts";

/** Rehearsals behind the forecast of a plan: each some tenths of a second. */
const REHEARSALS = 12;
const { columns, rows } = couponCapacity(patchDefault, couponDefault);
const perCouponMost = columns * rows;

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
  /** settings of the quick look that those are chosen from */
  readonly looks?: number;
}

/**
 * A trial by the design asked for, around the best setting that the physics predicts. The physics-guided one takes the
 * settings that teach most and says how many patches the question may need. Throws InvalidInput where no setting fits the
 * site, or the design does not fit the patches.
 */
export function planAnswer(
  model: PartModel,
  setup: LaserSetup,
  ask: PlanAsk,
  onProgress: (done: number, of: number) => void = () => undefined,
): Trial {
  const { count, design, seed } = ask;
  const { best } = surveySetup(model, setup, ask.site, null);
  if (!best) return invalid("laser", setup.name, "", "no setting of it fits the limits of the site");
  const common = { id: ask.trialId, enquiryId: ask.enquiryId, centre: best.setting, count, design, seed };
  if (design !== "physics-guided") return planTrial(model, setup, common);
  const { settings, words } = priorPlan(model, setup, {
    seed: model.seed,
    count,
    rehearsals: ask.rehearsals ?? REHEARSALS,
    perCoupon: Math.ceil(count / Math.ceil(count / perCouponMost)),
    draws: model.draws.length,
    ...(ask.rays === undefined ? {} : { rays: ask.rays }),
    ...(ask.looks === undefined ? {} : { looks: ask.looks }),
    onProgress,
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
  readonly #rays: { readonly rays?: number };

  /** `rays` settings are looked at beside those burned; the usual number where it is left out. */
  constructor(rays?: number) {
    this.#rays = rays === undefined ? {} : { rays };
  }

  forget(): void {
    this.#solved.clear();
  }

  answer(
    model: PartModel,
    setup: LaserSetup,
    { trial, outcomes, confidence, lapse }: Pick<Ask<"window">, "trial" | "outcomes" | "confidence" | "lapse">,
    progress: (done: number, total: number) => void,
  ): { readonly window: WindowResult; readonly versions: number } {
    const key = JSON.stringify([model.part.id, setup.id, model.draws.length, trial.patches.map((p) => p.setting)]);
    const solved = this.#solved.get(key) ?? this.#solve(model, setup, trial, progress);
    this.#solved.set(key, solved);
    const { part } = solved.model;
    const asked = { ...solved.model, part: { ...part, acceptance: { ...part.acceptance, confidence } } };
    const versions = asked.draws.length;
    const window = evaluateWindow(asked, setup, trial, outcomes, {
      seed: model.seed,
      draws: versions,
      book: solved.book,
      ...(lapse === undefined ? {} : { lapse }),
    });
    return { window, versions };
  }
  #solve(given: PartModel, setup: LaserSetup, trial: Trial, onProgress: (done: number, of: number) => void): Solved {
    const model = evidenceModel(given);
    return { model, book: trialBook(model, setup, trial, { ...this.#rays, onProgress }) };
  }
}
