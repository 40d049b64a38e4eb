import { calibrate } from "#calibration";
import type { LaserSetup, Setting } from "#terms";
import { choiceTable, nextPicks, productionDrift, rehearse, type TrialForecast, truthDraws } from "#window";
import { carried } from "./beliefs.ts";
import { type EdgeBook, edgeBook } from "./edge-book.ts";
import { EVIDENCE_RAYS, evidenceModel } from "./evaluate-window.ts";
import type { PartModel } from "./part-model.ts";

export interface PriorPlanOptions {
  readonly seed: number;
  /** settings wanted, the one that may teach most first */
  readonly count: number;
  /** trials to rehearse for the forecast; 0 for none */
  readonly rehearsals: number;
  readonly perCoupon: number;
  readonly rays?: number;
  readonly draws?: number;
  readonly powerMax?: number | null;
  /** settings of the first quick look that the rays are chosen from */
  readonly looks?: number;
  /** rays of the book that are solved, and how many there are */
  readonly onProgress?: (done: number, of: number) => void;
}

export interface PriorPlan {
  readonly settings: readonly Setting[];
  readonly forecast: TrialForecast | null;
  readonly words: readonly string[];
  readonly book: EdgeBook;
}

/** Particles of a rehearsal: many trials, each rough. */
const REHEARSAL = { particles: 400, islands: 1, moves: 2, most: 48, firstBatch: 8, batch: 4 } as const;

/**
 * The settings to burn before anything is known but physics: by expected improvement of the robust rate over the versions
 * of the physics, so that every version finds its fast settings among them; and how many patches the question may need, by
 * rehearsing the trial on truths drawn from the same prior. Throws InvalidInput as `edgeBook`.
 */
export function priorPlan(given: PartModel, setup: LaserSetup, options: PriorPlanOptions): PriorPlan {
  const model = evidenceModel(given, options.draws);
  const book = edgeBook(model, setup, {
    seed: model.seed,
    rays: options.rays ?? EVIDENCE_RAYS,
    powerMax: options.powerMax ?? null,
    ...(options.looks === undefined ? {} : { looks: options.looks }),
    ...(options.onProgress === undefined ? {} : { onProgress: options.onProgress }),
  });
  const { shifts } = carried(model.beliefs, model.part, { setup, shelves: model.shelves });
  const prior = calibrate({ kind: setup.kind, draws: book.draws, patches: [], seed: options.seed, shifts });
  const table = choiceTable(truthDraws(prior), book.rays, productionDrift);
  const { picks } = nextPicks({
    table,
    n: options.count,
    choice: null,
    repeats: () => ({ burned: 0, good: 0 }),
    patches: 0,
    burned: () => false,
  });
  const forecast =
    options.rehearsals > 0
      ? rehearse(
          {
            ...REHEARSAL,
            kind: setup.kind,
            draws: book.draws,
            rays: book.rays,
            drift: productionDrift,
            confidence: model.part.acceptance.confidence,
            seed: options.seed,
            shifts,
          },
          options.rehearsals,
          options.perCoupon,
        )
      : null;
  return {
    settings: picks.map((p) => p.choice.setting),
    forecast,
    words: forecastWords(forecast, options.count),
    book,
  };
}

function forecastWords(forecast: TrialForecast | null, count: number): string[] {
  if (forecast === null) return [];
  const { median, most, settled, nothing, rehearsals } = forecast;
  const of = (share: number) => `${Math.round(share * rehearsals)} of ${rehearsals}`;
  return [
    `Rehearsed ${rehearsals} times on truths drawn from the physics: ${of(settled)} come to a verdict within ${REHEARSAL.most} patches burned in batches, half of those within ${median} and nine in ten within ${most}. The verdict is a setting in ${of(settled - nothing)} and "no window found" in ${of(nothing)}.`,
    `Burned all at once, ${count} settings tell about as much as half of them in batches: two coupons one after the other beat one.`,
  ];
}
