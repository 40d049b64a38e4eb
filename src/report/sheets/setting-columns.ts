import type { Setting, SourceKind } from "#terms";
import { unitLabel } from "#units";
import type { Speech } from "./speech.ts";
import type { Words } from "./words-shape.ts";

/** One value of a setting as the panel takes it. `key` is the column of the run sheet file. */
export interface SettingColumn {
  readonly key: string;
  readonly name: keyof Words["setting"];
  readonly unit: string;
  readonly of: (setting: Setting) => number | string | null;
}

const power: SettingColumn = { key: "power_W", name: "power", unit: "W", of: (s) => s.power };
const level: SettingColumn = { key: "level_percent", name: "level", unit: "%", of: (s) => s.level };
const frequency: SettingColumn = { key: "frequency_kHz", name: "frequency", unit: "kHz", of: (s) => s.frequency };
const width: SettingColumn = { key: "pulseWidth_ns", name: "pulseWidth", unit: "ns", of: (s) => s.pulseWidth };
const duty: SettingColumn = { key: "duty_percent", name: "duty", unit: "%", of: (s) => s.duty };
const scan: readonly SettingColumn[] = [
  { key: "speed_mm_per_s", name: "speed", unit: "mm/s", of: (s) => s.speed },
  { key: "lineSpacing_mm", name: "lineSpacing", unit: "mm", of: (s) => s.lineSpacing },
  { key: "passes", name: "passes", unit: "", of: (s) => s.passes },
  { key: "defocus_mm", name: "defocus", unit: "mm", of: (s) => s.defocus },
];
const lens: SettingColumn = { key: "lens", name: "lens", unit: "", of: (s) => s.lens };

/** Values that a panel of this kind of source takes: a pulse width only on a pulsed one, a duty only on a continuous one. */
export function settingColumns(kind: SourceKind): readonly SettingColumn[] {
  return kind === "pulsed"
    ? [power, level, frequency, width, ...scan, lens]
    : [power, level, duty, frequency, ...scan, lens];
}

/** A value in print, without its unit; an en dash where it has no meaning. */
export function settingValue(column: SettingColumn, setting: Setting, speech: Speech): string {
  const value = column.of(setting);
  if (value === null) return "–";
  return typeof value === "string" ? value : speech.exact(speech.words.setting[column.name], value, column.unit);
}

/** The same with its unit. */
export function settingText(column: SettingColumn, setting: Setting, speech: Speech): string {
  const value = settingValue(column, setting, speech);
  return column.unit === "" || value === "–" ? value : `${value} ${unitLabel(column.unit)}`;
}
