import type { GaugeReadings, GradedItem } from "#gauging";
import { invalid } from "#units";
import { anyUnitColumn, readPlainTable } from "./plain-table.ts";

/** Readings of a crossed gauge study in SI, with the unit of the file for printing. */
export interface GaugeFile {
  readonly readings: GaugeReadings;
  readonly parts: readonly string[];
  readonly graders: readonly string[];
  readonly unit: string;
}

/**
 * Readings of a gauge study from CSV: columns part, grader and reading or reading_<unit>, one row for each reading,
 * repeats in any order; a column `repeat` may stand beside. Throws InvalidInput for a missing column or cell, and for
 * a study that is not crossed, which names the first part and grader that lack readings.
 */
export function parseReadingsCsv(text: string): GaugeFile {
  const { header, rows } = readPlainTable(
    text,
    "readings file",
    (column) => ["part", "grader", "repeat", "reading"].includes(column) || column.startsWith("reading_"),
  );
  for (const column of ["part", "grader"]) {
    if (!header.includes(column))
      invalid("readings file", header.join(" "), "", `the header line needs the column ${column}`);
  }
  const reading =
    anyUnitColumn(header, "reading") ??
    invalid("readings file", header.join(" "), "", "the header line needs the column reading or reading_<unit>");
  const cells = new Map<string, Map<string, number[]>>();
  const graders = new Set<string>();
  for (const row of rows) {
    const [part, grader] = ["part", "grader"].map((column) => {
      const name = row.text(column);
      return name === "" ? invalid(`${column} on line ${row.line}`, "missing", "", "must be named") : name;
    }) as [string, string];
    const value = row.number(reading.column);
    if (value === null) invalid(`${reading.column} on line ${row.line}`, "missing", "", "a crossed study has no gaps");
    graders.add(grader);
    const own = cells.get(part) ?? new Map<string, number[]>();
    cells.set(part, own);
    own.set(grader, [...(own.get(grader) ?? []), reading.toSI(value)]);
  }
  const repeats = Math.max(...[...cells.values()].flatMap((own) => [...own.values()].map((values) => values.length)));
  const readings = [...cells].map(([part, own]) =>
    [...graders].map((grader) => {
      const values = own.get(grader) ?? [];
      if (values.length !== repeats)
        invalid("readings", values.length, "", `part ${part} by ${grader} needs ${repeats}, as many as the others`);
      return values;
    }),
  );
  return { readings, parts: [...cells.keys()], graders: [...graders], unit: reading.unit };
}

/**
 * Grades of several graders from CSV: columns patch (or item), grader and grade (or metalCondition), one row for each
 * grade; other columns of a filled run sheet are passed over. Rows without a grade are left out.
 * Throws InvalidInput for a missing column and a row without patch or grader.
 */
export function parseGradesCsv(text: string): GradedItem[] {
  const { header, rows } = readPlainTable(text, "grades file", () => true);
  const one = (...names: string[]): string =>
    names.find((name) => header.includes(name)) ??
    invalid("grades file", header.join(" "), "", `the header line needs the column ${names.join(" or ")}`);
  const [item, grader, grade] = [one("patch", "item"), one("grader"), one("grade", "metalCondition")] as const;
  return rows
    .filter((row) => row.text(grade) !== "")
    .map((row) => {
      for (const column of [item, grader]) {
        if (row.text(column) === "") invalid(`${column} on line ${row.line}`, "missing", "", "must be named");
      }
      return { item: row.text(item), grader: row.text(grader), grade: row.text(grade) };
    });
}
