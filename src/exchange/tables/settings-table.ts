import type { TrialWire, WindowWire } from "#contract";
import { settingCells, settingColumns } from "./setting-cells.ts";
import { type Cell, type Column, numbers, rowOf, type Table, texts } from "./table.ts";

const columns: readonly Column[] = [
  ...texts("use", "laser"),
  ...numbers("patch"),
  ...settingColumns,
  ...numbers("probabilityClean", "probabilityUndamaged", "probabilityBoth", "areaRate_m2_per_h"),
  ...texts("why"),
];

/** Settings in one list: the recommended one and the next to burn, where a window is given, then those planned. */
export function settingsTable(trial: TrialWire, window: WindowWire | null = null): Table {
  const rows: Record<string, Cell>[] = [];
  const r = window?.recommended ?? null;
  if (r !== null)
    rows.push({
      use: r.proven ? "recommended, proven" : "recommended, not proven",
      ...settingCells(r.setting),
      probabilityClean: r.probabilityClean,
      probabilityUndamaged: r.probabilityUndamaged,
      probabilityBoth: r.probabilityBoth,
      areaRate_m2_per_h: r.areaRate_m2_per_h,
      why: r.words.join(" "),
    });
  for (const next of window?.next ?? [])
    rows.push({
      use: "next to burn",
      ...settingCells(next.setting),
      probabilityClean: next.probabilityClean,
      probabilityUndamaged: next.probabilityUndamaged,
      why: next.reason,
    });
  for (const patch of trial.patches.filter((p) => p.setting !== null))
    rows.push({
      use: patch.role,
      patch: patch.patch,
      ...settingCells(patch.setting),
      probabilityClean: patch.predictedClean,
      probabilityUndamaged: patch.predictedUndamaged,
    });
  return {
    name: "settings",
    title: "Settings",
    columns,
    rows: rows.map((cells) => rowOf(columns, { laser: trial.laser, ...cells })),
  };
}
