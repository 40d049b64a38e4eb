import { type AnswerWire, outcomeFromWire, settingFromWire, type WindowWire } from "#contract";
import type { StoreReader } from "#store";
import type { Acceptance, Outcome, Setting } from "#terms";
import type { KeptCase } from "./like-cases.ts";

/** What a kept trial found. */
export interface Found {
  readonly graded: number | null;
  readonly clean: number | null;
  readonly damaged: number | null;
  readonly recommended: {
    readonly setting: Setting;
    readonly proven: boolean;
    readonly from: "belief" | "answer";
  } | null;
  readonly noWindow: boolean;
}

/** Outcomes and the setting recommended then: from the belief, else from the last answer that held the trial. */
export async function foundIn(reader: StoreReader, one: KeptCase): Promise<Found> {
  const outcomes = (await reader.outcomes(one.trialId)).map(outcomeFromWire);
  const counts = one.planned === null ? NOT_KEPT : tally(outcomes, one.part?.acceptance ?? null);
  if (one.belief?.recommended !== undefined) {
    const r = one.belief.recommended;
    return { ...counts, recommended: r && { ...r, from: "belief" }, noWindow: r === null };
  }
  const window = await windowIn(reader, one);
  const r = window?.recommended ?? null;
  return {
    ...counts,
    recommended: r && { setting: settingFromWire(r.setting), proven: r.proven, from: "answer" },
    noWindow: window !== null && r === null,
  };
}

const NOT_KEPT = { graded: null, clean: null, damaged: null } as const;

/** Patches, not gradings: one is clean where all of its graders found it so, damaged where one of them did. */
function tally(outcomes: readonly Outcome[], acceptance: Acceptance | null) {
  const patches = new Map<number, Outcome[]>();
  for (const o of outcomes)
    if (o.residueFraction !== null || o.metalCondition !== null)
      patches.set(o.patch, [...(patches.get(o.patch) ?? []), o]);
  if (acceptance === null) return { graded: patches.size, clean: null, damaged: null };
  let clean = 0;
  let damaged = 0;
  for (const gradings of patches.values()) {
    const residues = gradings.flatMap((o) => (o.residueFraction === null ? [] : [o.residueFraction]));
    if (residues.length > 0 && residues.every((r) => r <= acceptance.residueMax)) clean += 1;
    if (gradings.some((o) => (o.metalCondition ?? 0) > acceptance.metalConditionMax)) damaged += 1;
  }
  return { graded: patches.size, clean, damaged };
}

/** The newest kept window of a trial. */
async function windowIn(reader: StoreReader, one: KeptCase): Promise<WindowWire | null> {
  for (const line of await reader.answers(one.enquiryId)) {
    if (line.shape !== "answer" && line.shape !== "window") continue;
    const result = (await reader.answer(line.id))?.result;
    if (line.shape === "window" && (result as WindowWire).trial === one.trialId) return result as WindowWire;
    if (line.shape !== "answer") continue;
    for (const part of (result as AnswerWire).parts)
      for (const { trial, window } of part.trials) if (trial.id === one.trialId && window !== null) return window;
  }
  return null;
}
