import { residueFromPoints } from "#grading";
import type { AcceptanceTest, MetalConditionGrade, Outcome, Trial } from "#terms";
import { InvalidInput, invalid } from "#units";
import { usualMethod } from "./acceptance-schema.ts";
import { findingColumn, testOfColumn } from "./csv-columns.ts";
import { plainText } from "./csv-text.ts";
import { type MeasuredColumn, measuredColumns, outcomeBounds, outcomeFromWire } from "./outcome-wire.ts";
import { readQuantity } from "./quantity-field.ts";
import { out } from "./wire-numbers.ts";

const decimalComma = /^([+-]?\d*),(\d+)(?=$|\s|[eE%])/;

/** A number cell as text with a decimal point. */
export function pointed(cell: string, column: string, commaAllowed: boolean): string {
  if (!cell.includes(",")) return cell;
  if (!commaAllowed) invalid(column, cell, "", "a decimal comma needs a file separated by semicolons");
  if (!decimalComma.test(cell)) invalid(column, cell, "", "must be a number with at most one decimal comma");
  return cell.replace(decimalComma, "$1.$2");
}

function measured(cell: string, column: MeasuredColumn, commaAllowed: boolean): number | null {
  if (cell === "") return null;
  const bounds = outcomeBounds[column];
  const read = readQuantity(pointed(cell, column, commaAllowed), bounds, column);
  if (typeof read === "number") return read;
  const plain = /^[+-]?[\d.,]+$/.test(cell);
  return invalid(column, cell, plain ? bounds.unit : "", read.rule);
}

function conditionOf(cell: string): MetalConditionGrade | null {
  if (cell === "") return null;
  if (!/^[0-4]$/.test(cell)) invalid("metalCondition", cell, "", "must be 0, 1, 2, 3 or 4");
  return Number(cell) as MetalConditionGrade;
}

function patchOf(cell: string, trial: Trial): number {
  if (!/^\d{1,6}$/.test(cell)) invalid("patch", cell, "", "must be the number of a patch");
  const patch = Number(cell);
  if (!trial.patches.some((p) => p.patch === patch)) invalid("patch", cell, "", `is not in trial ${trial.id}`);
  return patch;
}

const verdict = /(?:^|[\s,;:(])(pass|passed|ok|fail|failed)\)?$/i;

/** "6.2 MPa pass" into value and verdict; either may be missing. */
function testOf(cell: string, column: string, wanted: readonly AcceptanceTest[]): AcceptanceTest | null {
  const kind = testOfColumn(column);
  if (kind === null || cell === "") return null;
  if (cell.length > 300) invalid(column, cell, "", "at most 300 characters");
  const text = plainText(cell);
  const word = verdict.exec(text);
  const value = (word === null ? text : text.slice(0, word.index)).trim();
  const asked = wanted.find((test) => test.kind === kind);
  return {
    kind,
    method: asked?.method ?? usualMethod[kind],
    limit: asked?.limit ?? "",
    value: value === "" ? null : value,
    passed: word === null ? null : /^(pass|passed|ok)$/i.test(word[1]!),
  };
}

/** A whole number of points, or null for an empty cell. */
function pointsOf(cell: string, column: string): number | null {
  if (cell === "") return null;
  if (!/^\d{1,6}$/.test(cell)) invalid(column, cell, "", "must be a whole number");
  return Number(cell);
}

/** Whole days after the burn, or null for an empty cell. */
function daysOf(cell: string): number | null {
  if (cell === "") return null;
  if (!/^\d{1,4}$/.test(cell) || Number(cell) < 1 || Number(cell) > 3650)
    invalid(findingColumn, cell, "", "must be whole days from 1 to 3650");
  return Number(cell);
}

/** Residue and its uncertainty, in %, from points looked at; null where none were. */
function residueOfPoints(cell: (column: string) => string): { residue: number; uncertainty: number } | null {
  const points = pointsOf(cell("points"), "points");
  const covered = pointsOf(cell("pointsWithResidue"), "pointsWithResidue");
  if (points === null && covered === null) return null;
  if (points === null) invalid("points", "missing", "", "needed beside pointsWithResidue");
  if (covered === null) invalid("pointsWithResidue", "missing", "", "needed beside points");
  if (cell("residue_percent") !== "") invalid("residue_percent", cell("residue_percent"), "%", "either this or points");
  const { value, uncertainty } = residueFromPoints(covered, points);
  return { residue: out(value, "%"), uncertainty: out(uncertainty, "%") };
}

/** Cells of one row by column; the first of two columns of one name counts. */
export function cellsByColumn(header: readonly string[], cells: readonly string[]): Map<string, string> {
  const byColumn = new Map<string, string>();
  header.forEach((column, i) => {
    if (column !== "" && !byColumn.has(column)) byColumn.set(column, (cells[i] ?? "").trim());
  });
  return byColumn;
}

/** One row as an outcome in SI. Throws InvalidInput with the first thing that does not fit. */
export function outcomeOfRow(
  row: ReadonlyMap<string, string>,
  trial: Trial,
  wanted: readonly AcceptanceTest[],
  commaAllowed: boolean,
): Outcome {
  const cell = (column: string): string => row.get(column) ?? "";
  const patch = patchOf(cell("patch"), trial);
  const values = Object.fromEntries(
    measuredColumns.map((column) => [column, measured(cell(column), column, commaAllowed)]),
  ) as Record<MeasuredColumn, number | null>;
  const counted = residueOfPoints(cell);
  if (counted !== null) {
    values.residue_percent = counted.residue;
    values.residueUncertainty_percent = counted.uncertainty;
  }
  const metalCondition = conditionOf(cell("metalCondition"));
  const tests = [...row].flatMap(([column, text]) => testOf(text, column, wanted) ?? []);
  const days = daysOf(cell(findingColumn));
  // Under a name of its own the finding stands beside what was seen at first, and what it says counts from now on.
  const found = days === null ? "" : `after ${days} days`;
  const grader = [plainText(cell("grader")), found].filter((text) => text !== "").join(", ");
  const note = [plainText(cell("note")), found && `Found ${found}.`].filter((text) => text !== "").join(" ");
  if (grader.length > 300) invalid("grader", grader, "", "at most 300 characters");
  if (note.length > 10_000) invalid("note", note, "", "at most 10000 characters");
  if (values.residueUncertainty_percent !== null && values.residue_percent === null) {
    invalid("residue_percent", "missing", "", "needed beside its uncertainty");
  }
  if (days !== null && metalCondition === null && tests.length === 0 && Object.values(values).every((v) => v === null))
    invalid(findingColumn, days, "", "a finding needs a test, a residue or a metal condition beside it");
  const nothing = metalCondition === null && tests.length === 0 && Object.values(values).every((v) => v === null);
  if (nothing && note === "") throw new InvalidInput("row", "empty", "", "nothing was observed on this patch");
  return outcomeFromWire({ trial: trial.id, patch, ...values, metalCondition, tests, grader, note });
}
