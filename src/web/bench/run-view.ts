import { settingRows } from "#report";
import type { PlannedPatch, RunEntry, Setting, Trial } from "#terms";
import { type PatchRun, patchesToRun, patchRun, standingEntries } from "#trial";
import { words } from "../words/index.ts";

/** One value of a setting as the machine's controls take it, and what they stand at. */
export interface SettingValue {
  readonly name: string;
  readonly value: string;
  /** what it was, where it has to be changed; null where it stays, or nobody knows what the machine stands at */
  readonly before: string | null;
}

/** One line of the run list. */
export interface RunLine {
  /** place in the order, from 1 */
  readonly place: number;
  readonly patch: PlannedPatch;
  readonly run: PatchRun;
  readonly values: readonly SettingValue[];
  /** values to change; null where all have to be set */
  readonly changes: readonly SettingValue[] | null;
}

/** Values of a setting beside those that the machine stands at. What only one of the two has is off in the other. */
function settingValues(setting: Setting, machine: Setting | null): SettingValue[] {
  const rows = settingRows(setting);
  if (machine === null) return rows.map(({ name, value }) => ({ name, value, before: null }));
  const known = settingRows(machine);
  const { off } = words.bench;
  const ends = known.filter((k) => rows.every((row) => row.name !== k.name)).map(({ name }) => ({ name, value: off }));
  return [...rows, ...ends].map(({ name, value }) => {
    const was = known.find((row) => row.name === name)?.value ?? off;
    return { name, value, before: was === value ? null : was };
  });
}

/** Patch that was burned last, by the clock; null before the first. */
const lastBurned = (standing: readonly RunEntry[]): RunEntry | null =>
  standing.findLast((e) => e.kind === "burned" || e.kind === "repeated") ?? null;

export interface RunList {
  readonly lines: readonly RunLine[];
  /** the first that is neither burned nor skipped; null when all is done */
  readonly current: RunLine | null;
  /** the burn that the next one waits for; null before the first */
  readonly last: RunEntry | null;
}

/**
 * The run list with what was done. A patch is set from the one that was burned before it in the order; the current one
 * from what the machine stands at, which is the patch burned last by the clock.
 */
export function runList(trial: Trial, entries: readonly RunEntry[]): RunList {
  const standing = standingEntries(entries);
  const planned = patchesToRun(trial).map((patch) => ({ patch, run: patchRun(standing, patch.patch) }));
  const current = planned.find((p) => p.run.state === "open");
  const last = lastBurned(standing);
  const settingOf = (patch: number | null | undefined): Setting | null =>
    trial.patches.find((p) => p.patch === patch)?.setting ?? null;
  const lines = planned.map(({ patch, run }, i): RunLine => {
    const before = planned.slice(0, i).findLast((p) => p.run.state !== "skipped")?.patch.setting ?? null;
    const machine = patch === current?.patch ? (settingOf(last?.patch) ?? before) : before;
    const values = patch.setting === null ? [] : settingValues(patch.setting, machine);
    const place = i + 1;
    return { place, patch, run, values, changes: machine === null ? null : values.filter((v) => v.before !== null) };
  });
  return { lines, current: lines.find((l) => l.patch === current?.patch) ?? null, last };
}

/** s of the planned wait before a patch that are left; 0 where there is none. `now`: ms since 1970. */
export function waitLeft(patch: PlannedPatch, last: RunEntry | null, now: number): number {
  const wait = patch.wait ?? 0;
  if (wait <= 0 || last === null) return 0;
  // Clocks of two phones differ: never longer than planned.
  return Math.max(0, Math.min(wait, wait - (now - Date.parse(last.at)) / 1000));
}

/** How long the open patches will take. */
export interface TimeLeft {
  /** s */
  readonly seconds: number;
  /** pace: as fast as the patches before; plan: waits and burns alone, so at least that */
  readonly by: "pace" | "plan";
}

/** Pauses for a meal or a chat say nothing of the pace. */
const LONGEST_STEP = 900;

/**
 * Time for the open patches by the median of the last steps from burn to burn, once there are three; by waits and burns
 * alone before. burnTime: s for a patch, null where it is not known.
 */
export function timeLeft(
  { lines }: RunList,
  entries: readonly RunEntry[],
  burnTime: (patch: PlannedPatch) => number | null,
): TimeLeft {
  const open = lines.filter((l) => l.run.state === "open").map((l) => l.patch);
  const plan = open.reduce((sum, patch) => sum + (patch.wait ?? 0) + (burnTime(patch) ?? 0), 0);
  const burns = standingEntries(entries).filter((e) => e.kind === "burned" || e.kind === "repeated");
  const times = burns.map((e) => Date.parse(e.at) / 1000);
  const steps = times
    .slice(1)
    .map((time, i) => time - (times[i] ?? time))
    .filter((step) => step > 0 && step < LONGEST_STEP)
    .slice(-9)
    .sort((a, b) => a - b);
  const median = steps[Math.floor(steps.length / 2)];
  if (steps.length < 3 || median === undefined) return { seconds: plan, by: "plan" };
  return { seconds: Math.max(plan, median * open.length), by: "pace" };
}
