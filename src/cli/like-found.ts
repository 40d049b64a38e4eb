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
export async function foundIn(reader: StoreReader, windows: WindowsOf, one: KeptCase): Promise<Found> {
  const outcomes = (await reader.outcomes(one.trialId)).map(outcomeFromWire);
  const counts = one.planned === null ? NOT_KEPT : tally(outcomes, one.part?.acceptance ?? null);
  if (one.belief?.recommended !== undefined) {
    const r = one.belief.recommended;
    return { ...counts, recommended: r && { ...r, from: "belief" }, noWindow: r === null };
  }
  const window = (await windows(one.enquiryId)).get(one.trialId) ?? null;
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

/** Windows of an enquiry's trials by the newest answers that hold them. */
export type WindowsOf = (enquiryId: string) => Promise<ReadonlyMap<string, WindowWire>>;

/** Reads each enquiry's answers once, however many of its trials are asked about. */
export function keptWindows(reader: StoreReader): WindowsOf {
  const read = new Map<string, Promise<ReadonlyMap<string, WindowWire>>>();
  return (enquiryId) => {
    const known = read.get(enquiryId) ?? windowsOf(reader, enquiryId);
    read.set(enquiryId, known);
    return known;
  };
}

async function windowsOf(reader: StoreReader, enquiryId: string): Promise<ReadonlyMap<string, WindowWire>> {
  const found = new Map<string, WindowWire>();
  const note = (trialId: string, window: WindowWire) => {
    if (!found.has(trialId)) found.set(trialId, window);
  };
  for (const line of await reader.answers(enquiryId)) {
    if (line.shape !== "window" && line.shape !== "answer") continue;
    const saved = await reader.answer(line.id);
    if (saved === null) continue;
    if (line.shape === "window") {
      const window = saved.result as WindowWire;
      note(window.trial, window);
      continue;
    }
    for (const { trials } of (saved.result as AnswerWire).parts)
      for (const { trial, window } of trials) if (window !== null) note(trial.id, window);
    // A whole answer holds every trial that was graded by then: what is older cannot be newer for any of them.
    break;
  }
  return found;
}
