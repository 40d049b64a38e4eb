import type { PlannedPatch, RunEntry, Trial } from "#terms";

type Dated = Pick<RunEntry, "id" | "at">;

/** Text order of instant and id: ids of two phones never tie. */
const byTime = (a: Dated, b: Dated): number => (a.at === b.at ? (a.id < b.id ? -1 : 1) : a.at < b.at ? -1 : 1);

/**
 * Entries of several lists as one, in order of time. Each id stands once: the first list that has it is believed, for no
 * entry is ever changed.
 */
export function mergeEntries<T extends Dated>(...lists: readonly (readonly T[])[]): T[] {
  const byId = new Map<string, T>();
  for (const entry of lists.flat()) if (!byId.has(entry.id)) byId.set(entry.id, entry);
  return [...byId.values()].sort(byTime);
}

/** What was not taken back, in order of time, without the takings back. A taking back is itself never taken back. */
export function standingEntries(entries: readonly RunEntry[]): RunEntry[] {
  const back = new Set(entries.map((e) => e.of));
  return mergeEntries(entries).filter((e) => e.kind !== "undo-of" && !back.has(e.id));
}

/** Whether an entry says what became of its patch. */
export const isTick = ({ kind }: RunEntry): boolean => kind === "burned" || kind === "skipped" || kind === "repeated";

/** What the entries say of one patch. */
export interface PatchRun {
  readonly state: "open" | "burned" | "skipped";
  /** the tick that says so; null while the patch is open */
  readonly tick: RunEntry | null;
  /** burns after the first */
  readonly repeats: number;
  /** everything that stands of the patch, in order of time */
  readonly entries: readonly RunEntry[];
}

/**
 * What became of a patch. Two phones may have said different things: metal that was burned stays burned, whoever says
 * that it was skipped; two ticks of one burn are one burn, and only a repeat counts as another.
 */
export function patchRun(standing: readonly RunEntry[], patch: number): PatchRun {
  const entries = standing.filter((e) => e.patch === patch);
  const last = (kind: RunEntry["kind"]) => entries.findLast((e) => e.kind === kind);
  const repeats = entries.filter((e) => e.kind === "repeated").length;
  const burned = last("repeated") ?? last("burned");
  if (burned !== undefined) {
    const first = entries.some((e) => e.kind === "burned");
    return { state: "burned", tick: burned, repeats: first ? repeats : repeats - 1, entries };
  }
  const skipped = last("skipped");
  return { state: skipped ? "skipped" : "open", tick: skipped ?? null, repeats: 0, entries };
}

/** Patches that are burned, in the order in which they are. */
export function patchesToRun({ patches }: Trial): PlannedPatch[] {
  return patches.filter((p) => p.setting !== null).toSorted((a, b) => a.runOrder - b.runOrder || a.patch - b.patch);
}

/** How far a trial has come at the machine. */
export interface RunProgress {
  readonly burned: number;
  readonly skipped: number;
  readonly of: number;
  /** the last tick that stands; null before the first */
  readonly last: RunEntry | null;
}

/** Counts the patches of a trial that were burned or skipped. */
export function runProgress(trial: Trial, entries: readonly RunEntry[]): RunProgress {
  const standing = standingEntries(entries);
  const states = patchesToRun(trial).map((p) => patchRun(standing, p.patch).state);
  const count = (state: PatchRun["state"]) => states.filter((s) => s === state).length;
  return {
    burned: count("burned"),
    skipped: count("skipped"),
    of: states.length,
    last: standing.findLast(isTick) ?? null,
  };
}
