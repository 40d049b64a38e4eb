import type { SettingWire } from "#contract";
import { type Cell, type Column, numbers, texts } from "./table.ts";

/** Columns of a setting as the machine's panel takes it, as on the run sheet. */
export const settingColumns: readonly Column[] = [
  ...texts("lens"),
  ...numbers(
    "power_W",
    "level_percent",
    "frequency_kHz",
    "pulseWidth_ns",
    "duty_percent",
    "speed_mm_per_s",
    "lineSpacing_mm",
    "passes",
    "defocus_mm",
  ),
];

/** Twelve digits: 0.07 is 7 %, not 7.000000000000001. */
const percent = (share: number): number => Number((100 * share).toPrecision(12));

export function settingCells(setting: SettingWire | null): Record<string, Cell> {
  if (setting === null) return {};
  const { level, duty, ...same } = setting;
  return { ...same, level_percent: percent(level), duty_percent: percent(duty) };
}
