import type { PatchRuling } from "#grading";
import type { MetalConditionGrade, Trial } from "#terms";
import { invalid, toSI } from "#units";
import { readPlainTable } from "./plain-table.ts";

const columns = ["patch", "grader", "residue_percent", "metalCondition"];

/**
 * What people said of readings, from CSV: patch, grader, residue_percent, metalCondition, note. A row with neither residue
 * nor metal condition accepts the reading. Throws InvalidInput, by line, for the first thing that does not fit.
 */
export function parseRulingsCsv(text: string, trial: Trial): PatchRuling[] {
  const { header, rows } = readPlainTable(text, "rulings file", (column) => columns.includes(column));
  for (const column of ["patch", "grader"])
    if (!header.includes(column))
      invalid("rulings file", header.join(" "), "", `the header line needs the column ${column}`);
  const seen = new Map<number, number>();
  return rows.map((row) => {
    const number = (column: string): number | null => (header.includes(column) ? row.number(column) : null);
    const at = (column: string): string => `${column} on line ${row.line}`;
    const patch = number("patch") ?? invalid(at("patch"), "", "", "must be the number of a patch");
    if (!trial.patches.some((p) => p.patch === patch)) invalid(at("patch"), patch, "", `is not in trial ${trial.id}`);
    const earlier = seen.get(patch);
    if (earlier !== undefined) invalid(at("patch"), patch, "", `already on line ${earlier}`);
    seen.set(patch, row.line);
    const residue = number("residue_percent");
    if (residue !== null && !(residue >= 0 && residue <= 100))
      invalid(at("residue_percent"), residue, "%", "must be from 0 to 100");
    const grade = number("metalCondition");
    if (grade !== null && ![0, 1, 2, 3, 4].includes(grade))
      invalid(at("metalCondition"), grade, "", "must be 0, 1, 2, 3 or 4");
    const grader = row.text("grader");
    if (grader === "") invalid(at("grader"), "", "", "must name who looked");
    return {
      patch,
      grader,
      residueFraction: residue === null ? null : toSI(residue, "%"),
      metalCondition: grade as MetalConditionGrade | null,
      note: header.includes("note") ? row.text("note") : "",
    };
  });
}
