import type { LaserSetup, PlannedPatch, Trial } from "#terms";
import { columnOfTest, outcomeColumns, planColumns } from "./csv-columns.ts";
import { safeText, writeCsv } from "./csv-text.ts";
import { settingToWire } from "./setting-wire.ts";
import { out } from "./wire-numbers.ts";

/** Setting of one patch as the machine's panel takes it: level and duty in per cent. */
function settingCells(patch: PlannedPatch): Record<string, string> {
  if (patch.setting === null) return {};
  const { level, duty, ...wire } = settingToWire(patch.setting);
  const cells = Object.entries({ ...wire, level_percent: out(level, "%"), duty_percent: out(duty, "%") });
  return Object.fromEntries(
    cells.map(([key, value]) => [
      key,
      value === null ? "" : typeof value === "string" ? safeText(value) : String(value),
    ]),
  );
}

/**
 * The run sheet: one row per patch in run order (untouched patches last), where it lies, what to set, and empty
 * columns for what is seen. The filled sheet is read by `parseOutcomesCsv` as it is.
 */
export function runSheetCsv(
  trial: Trial,
  setup: LaserSetup,
  testColumns: readonly Parameters<typeof columnOfTest>[0][] = [],
): string {
  const label = new Map(trial.coupons.map((c) => [c.coupon, c.label]));
  const observed = outcomeColumns.filter((column) => column !== "patch");
  const columns = ["runOrder", "patch", ...planColumns.slice(1), ...observed, ...testColumns.map(columnOfTest)];
  const order = (patch: PlannedPatch): number => (patch.runOrder === 0 ? Number.POSITIVE_INFINITY : patch.runOrder);
  const patches = trial.patches.toSorted((a, b) => (order(a) === order(b) ? a.patch - b.patch : order(a) - order(b)));
  const rows = patches.map((patch) => {
    const cells: Record<string, string> = {
      runOrder: patch.runOrder === 0 ? "" : String(patch.runOrder),
      patch: String(patch.patch),
      coupon: String(patch.coupon),
      couponLabel: safeText(label.get(patch.coupon) ?? ""),
      x_mm: String(out(patch.x, "mm")),
      y_mm: String(out(patch.y, "mm")),
      width_mm: String(out(patch.width, "mm")),
      height_mm: String(out(patch.height, "mm")),
      role: patch.role,
      wait_s: patch.wait === undefined ? "" : String(out(patch.wait, "s")),
      laser: safeText(setup.id),
      ...settingCells(patch),
    };
    return columns.map((column) => cells[column] ?? "");
  });
  return writeCsv([columns, ...rows]);
}
