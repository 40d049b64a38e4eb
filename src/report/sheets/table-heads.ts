import { unitLabel } from "#units";
import type { SheetColumn } from "./model.ts";
import type { SettingColumn } from "./setting-columns.ts";
import type { Speech } from "./speech.ts";

/** Heads of the columns of a setting. */
export function settingHeads(columns: readonly SettingColumn[], speech: Speech): SheetColumn[] {
  return columns.map(({ key, name, unit }) => ({
    key,
    name: speech.words.setting[name],
    unit: unitLabel(unit),
    align: "right",
    // long names want room
    share: Math.max(9, 0.75 * speech.words.setting[name].length),
  }));
}
