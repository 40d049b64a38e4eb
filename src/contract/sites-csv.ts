import type { TestedSite } from "#window";
import { invalid } from "#units";
import { anyUnitColumn, readPlainTable } from "./plain-table.ts";

export interface SitesFile {
  /** levels in SI */
  readonly sites: readonly TestedSite[];
  readonly unit: string;
}

/**
 * Sites of a go/no-go test from CSV: columns level or level_<unit> (for example level_J_per_cm2) and damaged (yes, no,
 * 1 or 0), one row for each site. Throws InvalidInput, by line, for the first thing that does not fit.
 */
export function parseSitesCsv(text: string): SitesFile {
  const { header, rows } = readPlainTable(
    text,
    "sites file",
    (column) => column === "damaged" || column === "level" || column.startsWith("level_"),
  );
  const level =
    anyUnitColumn(header, "level") ??
    invalid("sites file", header.join(" "), "", "the header line needs the column level or level_<unit>");
  if (!header.includes("damaged"))
    invalid("sites file", header.join(" "), "", "the header line needs the column damaged");
  const sites = rows.map((row) => {
    const value = row.number(level.column);
    if (value === null) invalid(`${level.column} on line ${row.line}`, "missing", "", "every site has a level");
    const word = row.text("damaged").toLowerCase();
    if (!["yes", "no", "1", "0"].includes(word))
      invalid(`damaged on line ${row.line}`, word, "", "must be yes, no, 1 or 0");
    return { level: level.toSI(value), damaged: word === "yes" || word === "1" };
  });
  return { sites, unit: level.unit };
}
