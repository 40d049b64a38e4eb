import type { Outcome } from "#terms";
import { fromSI, toSI } from "#units";
import { words } from "../../words/index.ts";

export type ColumnKey =
  | "residueFraction"
  | "lightness"
  | "roughnessBefore"
  | "roughnessAfter"
  | "thicknessBefore"
  | "thicknessAfter"
  | "temperature";

export interface Column {
  readonly key: ColumnKey;
  readonly label: string;
  readonly unit: string;
}

export const columns: readonly Column[] = [
  { key: "residueFraction", label: words.results.residue, unit: "%" },
  { key: "lightness", label: words.results.lightness, unit: "" },
  { key: "roughnessBefore", label: words.results.roughnessBefore, unit: "um" },
  { key: "roughnessAfter", label: words.results.roughnessAfter, unit: "um" },
  { key: "thicknessBefore", label: words.results.thicknessBefore, unit: "um" },
  { key: "thicknessAfter", label: words.results.thicknessAfter, unit: "um" },
  { key: "temperature", label: words.results.temperature, unit: "degC" },
];

/** What a cell shows of a recorded outcome. */
export function cellText(column: Column, outcome: Outcome | undefined): string {
  const value = outcome?.[column.key] ?? null;
  if (value === null) return "";
  return String(Number((column.unit === "" ? value : fromSI(value, column.unit)).toPrecision(4)));
}

/** A typed cell in SI; null when empty, undefined when it is no number. */
export function readCell(key: ColumnKey, text: string): number | null | undefined {
  const trimmed = text.trim().replace(",", ".");
  if (trimmed === "") return null;
  const value = Number(trimmed);
  if (!Number.isFinite(value)) return undefined;
  const unit = columns.find((c) => c.key === key)?.unit ?? "";
  return unit === "" ? value : toSI(value, unit);
}
