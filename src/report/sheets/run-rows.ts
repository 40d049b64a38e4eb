import type { PlannedPatch, Trial } from "#terms";
import { type Cell, blank, text, tick } from "./model.ts";
import { type SettingColumn, settingValue } from "./setting-columns.ts";
import type { Speech } from "./speech.ts";

/** Patches as they are burned, those left untouched last: the order of the run sheet file. */
export function inRunOrder({ patches }: Trial): PlannedPatch[] {
  const order = ({ runOrder }: PlannedPatch): number => (runOrder === 0 ? Number.POSITIVE_INFINITY : runOrder);
  return patches.toSorted((a, b) => (order(a) === order(b) ? a.patch - b.patch : order(a) - order(b)));
}

/** What to write at the end of a row: room for a note, or what a reference patch is for. */
function noteOf({ setting, role }: PlannedPatch, speech: Speech): Cell {
  const said = speech.words.run;
  if (setting !== null) return blank();
  return text(role === "untouched" ? said.untouchedLong : said.cleanedLong);
}

const runOf = ({ runOrder }: PlannedPatch): Cell => text(runOrder === 0 ? "–" : String(runOrder));
const blanks = (count: number): Cell[] => Array.from({ length: count }, () => blank());

/** One row a patch: what to do, what to set, and `count` places to write what is seen. */
export function runRow(
  patch: PlannedPatch,
  label: string,
  columns: readonly SettingColumn[],
  count: number,
  speech: Speech,
): Cell[] {
  const { setting, runOrder } = patch;
  const wait = patch.wait === undefined || patch.wait === 0 ? "–" : speech.exact("wait", patch.wait, "s");
  return [
    runOf(patch),
    runOrder === 0 ? text("–") : tick,
    text(String(patch.patch)),
    text(label),
    text(wait),
    ...columns.map((column) => text(setting === null ? "–" : settingValue(column, setting, speech))),
    ...blanks(count),
    noteOf(patch, speech),
  ];
}

/** One row a patch with nothing but places to write. */
export function readingRow(patch: PlannedPatch, label: string, count: number, speech: Speech): Cell[] {
  return [runOf(patch), text(String(patch.patch)), text(label), ...blanks(count), noteOf(patch, speech)];
}
