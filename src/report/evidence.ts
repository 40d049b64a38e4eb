import type { PartAnswer, Prediction, Recommendation, Setting, SetupVerdict, Trial } from "#terms";
import type { Evidence } from "./model.ts";
import { chance, plural } from "./wording.ts";

/** What a report recommends for one part, and on what footing. */
export interface Chosen {
  readonly evidence: Evidence;
  readonly setupId: string | null;
  readonly setupName: string | null;
  readonly verdict: SetupVerdict | null;
  readonly setting: Setting | null;
  readonly prediction: Prediction | null;
  readonly recommendation: Recommendation | null;
  readonly trial: Trial | null;
  /** m²/s, or null */
  readonly areaRate: number | null;
  readonly words: string;
}

const nothing = {
  setupId: null,
  setupName: null,
  verdict: null,
  setting: null,
  prediction: null,
  recommendation: null,
  trial: null,
  areaRate: null,
} as const;

export function setupNameOf(part: PartAnswer, setupId: string): string {
  return part.verdicts.find((v) => v.setupId === setupId)?.setupName ?? setupId;
}

/** Proven on patches before settled by the trial's own rule, settled before tried, tried before predicted; verdicts come best first. */
export function choose(part: PartAnswer): Chosen {
  if (part.triage.verdict === "declined")
    return { ...nothing, evidence: "declined", words: "Declined: nothing is recommended for this part." };
  const run = bestTrial(part.trials.filter((t) => t.window?.recommended));
  if (run !== undefined) return fromTrial(part, run.trial, run.window!.recommended!, run.window!.diagnostics.patches);
  const graded = part.trials.reduce((sum, t) => sum + t.outcomes.length, 0);
  const failed = part.trials.some((t) => t.window !== null && t.window.recommended === null);
  const works = (v: SetupVerdict): boolean => v.windowExists && v.best !== null;
  const verdict = part.verdicts.find((v) => works(v) && v.shortfall === "none") ?? part.verdicts.find(works);
  const lead = failed
    ? `No window found among the settings tried (${plural(graded, "patch", "patches")} graded). `
    : "";
  if (verdict === undefined)
    return {
      ...nothing,
      evidence: "none",
      words: `${lead}None found: no set-up in the list is predicted to have a window.`,
    };
  const { best } = verdict;
  return {
    ...nothing,
    evidence: "predicted",
    setupId: verdict.setupId,
    setupName: verdict.setupName,
    verdict,
    setting: best!.setting,
    prediction: best,
    areaRate: verdict.areaRate,
    words: `${lead}Predicted, not yet tried: clean and undamaged in ${chance(verdict.sureness)} of the versions of the physics drawn.`,
  };
}

type Run = PartAnswer["trials"][number];

/** Proven before settled, settled before tried; among those that stand alike the faster one, in whatever order they come. */
function bestTrial(tried: readonly Run[]): Run | undefined {
  const standing = ({ window }: Run): number =>
    window!.recommended!.proven ? 2 : window!.stop.verdict === "recommend" ? 1 : 0;
  return tried.toSorted(
    (a, b) => standing(b) - standing(a) || b.window!.recommended!.areaRate - a.window!.recommended!.areaRate,
  )[0];
}

function fromTrial(part: PartAnswer, trial: Trial, recommendation: Recommendation, patches: number): Chosen {
  const verdict = part.verdicts.find((v) => v.setupId === trial.setupId) ?? null;
  const { repeats, repeatsGood, proven, probabilityBoth } = recommendation;
  const burned = `burned ${plural(repeats, "time")} at this setting, ${repeatsGood} clean and undamaged`;
  const footing = proven
    ? `Proven on ${plural(repeats, "patch", "patches")}: ${burned}`
    : `Tried, not yet proven: ${repeats === 0 ? "this setting itself has not been burned" : burned}`;
  return {
    evidence: proven ? "proven" : "tried",
    setupId: trial.setupId,
    setupName: setupNameOf(part, trial.setupId),
    verdict,
    setting: recommendation.setting,
    prediction: null,
    recommendation,
    trial,
    areaRate: recommendation.areaRate,
    words: `${footing}; ${plural(patches, "patch", "patches")} graded in trial ${trial.id}; chance that the next patch is clean and undamaged: ${chance(probabilityBoth)}.`,
  };
}
