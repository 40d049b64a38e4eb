import type { LaserSetup, Setting, Trial } from "#terms";
import { type PartModel, type PriorPlan, priorPlan } from "#workflows";
import { looksFor } from "./evaluate.ts";
import { progressLine } from "./progress.ts";

export interface GuideFlags {
  /** settings that the physics' own list is chosen from; 48 when left out */
  readonly rays?: number;
  /** imagined trials for the forecast of patches; 0 for none */
  readonly rehearse?: number;
  readonly json?: boolean;
}

const REHEARSALS = 12;

/**
 * The settings that teach most by the physics, the most telling first, and what the trial is forecast to need. Weighed over
 * as many versions of the physics as were asked for, half of what the outcomes will be weighed over: a first list may be
 * rough. A setting handed in leads the list.
 */
export function guideOf(
  model: PartModel,
  setup: LaserSetup,
  first: Trial,
  given: Setting | null,
  flags: GuideFlags & { readonly seed: number },
): Pick<PriorPlan, "settings" | "words"> {
  const wanted = first.patches.filter((p) => p.setting !== null && p.replicateOf === null).length;
  const progress = progressLine(flags);
  try {
    const { settings, words } = priorPlan(model, setup, {
      seed: flags.seed,
      count: wanted,
      rehearsals: flags.rehearse ?? REHEARSALS,
      perCoupon: Math.ceil(first.patches.length / first.coupons.length),
      draws: model.draws.length,
      ...(flags.rays === undefined ? {} : { rays: flags.rays }),
      ...looksFor(flags.rays),
      onProgress: (done, of) =>
        progress.say(
          done < of ? `${setup.name}: edges of setting ${done} of ${of}` : `${setup.name}: rehearsing the trial`,
        ),
    });
    return { settings: given === null ? settings : [given, ...settings], words };
  } finally {
    progress.clear();
  }
}
