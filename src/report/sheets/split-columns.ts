import type { Setting, SourceKind } from "#terms";
import { type SettingColumn, settingColumns, settingText, settingValue } from "./setting-columns.ts";
import type { Speech } from "./speech.ts";

export interface SplitColumns {
  /** the same in every setting: said once */
  readonly same: readonly { readonly column: SettingColumn; readonly value: string }[];
  readonly own: readonly SettingColumn[];
}

/** Values that all settings share are said once, so that a table shows what changes. */
export function splitColumns(settings: readonly Setting[], kind: SourceKind, speech: Speech): SplitColumns {
  const columns = settingColumns(kind);
  const shared = (column: SettingColumn): boolean =>
    settings.length > 1 && new Set(settings.map((setting) => settingValue(column, setting, speech))).size === 1;
  return {
    same: columns.filter(shared).map((column) => ({ column, value: settingText(column, settings[0]!, speech) })),
    own: columns.filter((column) => !shared(column)),
  };
}
