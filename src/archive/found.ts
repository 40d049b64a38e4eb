import { settingFromWire } from "#contract";
import type { GradedPatch, KeptWindow, StoreReader } from "#store";
import type { Acceptance, Setting } from "#terms";
import type { KeptCase } from "./kept-cases.ts";

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

/** How what was found is read, so that what was read once can be kept. */
export interface Reading {
  readonly windows: WindowsOf;
  readonly patchesOf: (reader: StoreReader, trial: string) => Promise<readonly GradedPatch[]>;
}

/** Outcomes and the setting recommended then: from the belief, else from the last answer that held the trial. */
export async function foundIn(reader: StoreReader, { windows, patchesOf }: Reading, one: KeptCase): Promise<Found> {
  const counts =
    one.planned === null ? NOT_KEPT : tally(await patchesOf(reader, one.trialId), one.part?.acceptance ?? null);
  if (one.belief?.recommended !== undefined) {
    const r = one.belief.recommended;
    return { ...counts, recommended: r && { ...r, from: "belief" }, noWindow: r === null };
  }
  const window = (await windows(reader, one.enquiryId)).get(one.trialId) ?? null;
  const r = window?.recommended ?? null;
  return {
    ...counts,
    recommended: r && { setting: settingFromWire(r.setting), proven: r.proven, from: "answer" },
    noWindow: window !== null && r === null,
  };
}

const NOT_KEPT = { graded: null, clean: null, damaged: null } as const;

/** Patches, not gradings: one is clean where all of its graders found it so, damaged where one of them did. */
function tally(patches: readonly GradedPatch[], acceptance: Acceptance | null) {
  const graded = patches.length;
  if (acceptance === null) return { graded, clean: null, damaged: null };
  const { residueMax, metalConditionMax } = acceptance;
  return {
    graded,
    clean: patches.filter((p) => p.residueFraction !== null && p.residueFraction <= residueMax).length,
    damaged: patches.filter((p) => (p.metalCondition ?? 0) > metalConditionMax).length,
  };
}

/** Windows of an enquiry's trials by the newest answers that hold them. */
export type WindowsOf = (reader: StoreReader, enquiryId: string) => Promise<ReadonlyMap<string, KeptWindow>>;

/** Reads each enquiry's answers once, and again when it has a newer one, however many of its trials are asked about. */
export function keptWindows(): WindowsOf {
  const read = new Map<string, { readonly newest: string; readonly windows: ReadonlyMap<string, KeptWindow> }>();
  return async (reader, enquiryId) => {
    const lines = await reader.answers(enquiryId);
    const newest = lines[0]?.id ?? "";
    const known = read.get(enquiryId);
    if (known?.newest === newest) return known.windows;
    const windows = await windowsOf(reader, lines);
    read.set(enquiryId, { newest, windows });
    return windows;
  };
}

async function windowsOf(
  reader: StoreReader,
  lines: Awaited<ReturnType<StoreReader["answers"]>>,
): Promise<ReadonlyMap<string, KeptWindow>> {
  const found = new Map<string, KeptWindow>();
  for (const line of lines) {
    if (line.shape !== "window" && line.shape !== "answer") continue;
    for (const window of await reader.windowsIn(line.id)) if (!found.has(window.trial)) found.set(window.trial, window);
    // A whole answer holds every trial that was graded by then: what is older cannot be newer for any of them.
    if (line.shape === "answer") break;
  }
  return found;
}
