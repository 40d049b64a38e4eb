import { type Goal, percent, plain, reachedText } from "./goals.ts";
import type { PlannerScore } from "./scoring.ts";

const columns: readonly (readonly [head: string, value: (s: PlannerScore) => string])[] = [
  ["planner", (s) => s.planner],
  ["cases", (s) => String(s.cases)],
  ["stopped", (s) => percent(s.stopped_share)],
  ["median", (s) => plain(s.median_patches)],
  ["p90", (s) => plain(s.p90_patches)],
  ["wrong", (s) => percent(s.wrong_share)],
  ["below", (s) => percent(s.wrong_upper95)],
  ["within 25", (s) => percent(s.within25_share)],
  ["at 24", (s) => percent(s.good25_at24)],
  ["none found", (s) => percent(s.nothing_works_found)],
  ["falsely", (s) => percent(s.nothing_works_false)],
  ["coverage", (s) => percent(s.coverage90)],
];

/** Table of all planners and the list of goals for the terminal. */
export function scoreLines(scores: readonly PlannerScore[], goals: readonly Goal[]): string[] {
  const rows = [columns.map(([head]) => head), ...scores.map((s) => columns.map(([, value]) => value(s)))];
  const widths = columns.map((_, c) => Math.max(...rows.map((row) => row[c]!.length)));
  const table = rows.map((row) =>
    row
      .map((cell, c) => (c === 0 ? cell.padEnd(widths[c]!) : cell.padStart(widths[c]!)))
      .join("  ")
      .trimEnd(),
  );
  if (goals.length === 0) return table;
  return [
    ...table,
    "",
    "must reach, physics-guided:",
    ...goals.map((g) => `  ${reachedText(g.reached).padEnd(8)}  ${g.what}: ${g.got} (${g.wanted})`),
  ];
}
