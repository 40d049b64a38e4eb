import type { AcceptanceTestKind } from "#terms";
import { testKinds } from "./acceptance-schema.ts";
import { measuredColumns } from "./outcome-wire.ts";

/** Columns that an outcome is read from, in the order in which they are written. */
export const outcomeColumns: readonly string[] = [
  "patch",
  "residue_percent",
  "residueUncertainty_percent",
  "metalCondition",
  ...measuredColumns.filter((c) => !c.startsWith("residue")),
  "grader",
  "note",
];

/** A residue from points at which a gauge, a water film or a lamp said yes or no; in place of residue_percent. */
export const pointColumns: readonly string[] = ["points", "pointsWithResidue"];

/** Days after the burn at which something was found, such as 30 or 90; such a row stands beside the first one. */
export const findingColumn = "daysAfter";

/** Columns of the run sheet that say what to do; they may come back with the outcomes and are not read. */
export const planColumns: readonly string[] = [
  "runOrder",
  "coupon",
  "couponLabel",
  "x_mm",
  "y_mm",
  "width_mm",
  "height_mm",
  "role",
  "wait_s",
  "laser",
  "lens",
  "power_W",
  "level_percent",
  "frequency_kHz",
  "pulseWidth_ns",
  "duty_percent",
  "speed_mm_per_s",
  "lineSpacing_mm",
  "passes",
  "defocus_mm",
];

const prefix = "test:";

/** "test:pull-off" to "pull-off"; null for any other column. */
export function testOfColumn(column: string): AcceptanceTestKind | null {
  if (!column.startsWith(prefix)) return null;
  return testKinds.find((kind) => kind === column.slice(prefix.length).trim()) ?? null;
}

export const columnOfTest = (kind: AcceptanceTestKind): string => `${prefix}${kind}`;

/** What is wrong with a header, one sentence per column. */
export function headerProblems(header: readonly string[]): string[] {
  const seen = new Set<string>();
  const found: string[] = [];
  for (const column of header) {
    if (column === "") continue;
    if (seen.has(column)) found.push(`invalid column: ${clip(column)} (named twice; the first is read)`);
    seen.add(column);
    const read = [...outcomeColumns, ...pointColumns, findingColumn];
    if (read.includes(column) || planColumns.includes(column) || testOfColumn(column) !== null) continue;
    const known = column.startsWith(prefix) ? testKinds.map(columnOfTest) : [...read, "test:<kind>"];
    found.push(`invalid column: ${clip(column)} (unknown and not read; known: ${known.join(", ")})`);
  }
  return found;
}

const clip = (text: string): string => {
  const flat = text.replace(/\s+/g, " ");
  return flat.length > 60 ? `${flat.slice(0, 57)}...` : flat;
};
