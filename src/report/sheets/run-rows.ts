import type { PlannedPatch, Trial } from "#terms";
import { type Cell, blank, text, tick } from "./model.ts";
import { type SettingColumn, settingValue } from "./setting-columns.ts";
import type { Speech } from "./speech.ts";

/** Patches as they are burned, those left untouched last: the order of the run sheet file. */
export function inRunOrder({ patches }: Trial): PlannedPatch[] {
  const order = ({ runOrder }: PlannedPatch): number => (runOrder === 0 ? Number.POSITIVE_INFINITY : runOrder);
  return patches.toSorted((a, b) => (order(a) === order(b) ? a.patch - b.patch : order(a) - order(b)));
}

/** One row a patch: what to do, what to set, and `blanks` places to write what is seen. */
export function runRow(
  patch: PlannedPatch,
  label: string,
  columns: readonly SettingColumn[],
  blanks: number,
  speech: Speech,
): Cell[] {
  const { setting, role, runOrder } = patch;
  const said = speech.words.run;
  const reference = role === "untouched" ? said.untouchedLong : said.cleanedLong;
  const wait = patch.wait === undefined || patch.wait <= 0 ? "–" : speech.exact("wait", patch.wait, "s");
  return [
    text(runOrder === 0 ? "–" : String(runOrder)),
    runOrder === 0 ? text("–") : tick,
    text(String(patch.patch)),
    text(label),
    text(wait),
    ...columns.map((column) => text(setting === null ? "–" : settingValue(column, setting, speech))),
    ...Array.from({ length: blanks }, () => blank()),
    setting === null ? text(reference) : blank(),
  ];
}
