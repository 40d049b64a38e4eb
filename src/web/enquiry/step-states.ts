import type { StepId } from "../app/route.ts";
import type { TrialRecord } from "../api/trials.ts";
import { isGraded, seenPatches } from "../show/seen-patches.ts";
import { words } from "../words/index.ts";
import type { PartDoc } from "./doc.ts";
import type { StepState } from "./step-list.tsx";

/** How far each step of one part is, in words. */
export function stepStates(
  part: PartDoc,
  trials: readonly TrialRecord[],
  answers: number,
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
    setting: { fill: "none", words: say.setting },
    trial:
      trials.length === 0
        ? { fill: "none", words: say.trialNone }
        : { fill: "full", words: say.trialDone(trials.length) },
    results:
      graded === 0
        ? { fill: "none", words: say.resultsNone }
        : { fill: graded >= patches ? "full" : "half", words: say.resultsDone(graded, Math.max(patches, graded)) },
    window: graded === 0 ? { fill: "none", words: say.windowNone } : { fill: "half", words: say.windowReady },
    report: answers === 0 ? { fill: "none", words: say.reportNone } : { fill: "full", words: say.reportDone(answers) },
  };
}

function hasUnknown(part: PartDoc): boolean {
  return (
    part.material === undefined ||
    part.material === "unknown" ||
    (part.layers ?? []).some((l) => l.kind === undefined || l.kind === "unknown" || typeof l.thickness_um !== "number")
  );
}
