import type { StepId } from "../app/place.ts";
import type { TrialRecord } from "../api/trials.ts";
import { isGraded, seenPatches } from "../show/seen-patches.ts";
import { words } from "../words/index.ts";
import type { PartDoc } from "./doc.ts";

export type Fill = "none" | "half" | "full";
export interface StepState {
  readonly fill: Fill;
  readonly words: string;
}

/** How far each step of one part is, in words. */
export function stepStates(
  part: PartDoc,
  trials: readonly TrialRecord[],
  answers: number,
  shopVersion: number,
  problem: string | null,
  compared: boolean,
): Record<StepId, StepState> {
  const say = words.steps.state;
  const patches = trials.reduce((n, t) => n + t.trial.patches.filter((p) => p.setting !== null).length, 0);
  const graded = trials.reduce((n, t) => n + seenPatches(t.outcomes).filter(isGraded).length, 0);
  const open = problem !== null || hasUnknown(part);
  return {
    part: { fill: open ? "half" : "full", words: open ? say.partOpen : say.partDone },
    lasers: compared ? { fill: "full", words: say.lasersDone } : { fill: "none", words: say.lasersNone },
    setting: { fill: graded === 0 ? "none" : "half", words: graded === 0 ? say.setting : say.settingTried },
    trial:
      trials.length === 0
        ? { fill: "none", words: say.trialNone }
        : { fill: "full", words: say.trialDone(trials.length) },
    results:
      graded === 0
        ? { fill: "none", words: say.resultsNone }
        : { fill: graded >= patches ? "full" : "half", words: say.resultsDone(graded, Math.max(patches, graded)) },
    window: graded === 0 ? { fill: "none", words: say.windowNone } : { fill: "half", words: say.windowReady },
    comparison: comparisonState(trials),
    economy: economyState(answers > 0 || compared, shopVersion),
    report: answers === 0 ? { fill: "none", words: say.reportNone } : { fill: "full", words: say.reportDone(answers) },
  };
}

/** Both kinds of laser tried on this part, one, or none; by what was graded. */
function comparisonState(trials: readonly TrialRecord[]): StepState {
  const say = words.comparison.states;
  const kinds = new Set(
    trials.filter((t) => t.outcomes.some(isGraded)).flatMap(({ trial }) => kindOfTrial(trial.patches) ?? []),
  );
  if (kinds.size === 0) return { fill: "none", words: say.none };
  return kinds.size === 1 ? { fill: "half", words: say.one } : { fill: "full", words: say.both };
}

/** A pulsed source has pulse widths to set. */
function kindOfTrial(patches: TrialRecord["trial"]["patches"]): "pulsed" | "continuous" | null {
  const setting = patches.find((p) => p.setting !== null)?.setting;
  if (!setting) return null;
  return setting.pulseWidth === null ? "continuous" : "pulsed";
}

function economyState(hasSetting: boolean, shopVersion: number): StepState {
  const say = words.economy.states;
  if (shopVersion > 0) return { fill: hasSetting ? "full" : "half", words: say.own };
  return hasSetting ? { fill: "half", words: say.invented } : { fill: "none", words: say.needsSetting };
}

function hasUnknown(part: PartDoc): boolean {
  return (
    part.material === undefined ||
    part.material === "unknown" ||
    (part.layers ?? []).some((l) => l.kind === undefined || l.kind === "unknown" || typeof l.thickness_um !== "number")
  );
}
