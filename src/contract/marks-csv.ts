import type { BurnSite } from "#gauging";
import { invalid } from "#units";
import { readPlainTable, type UnitColumn, unitColumn } from "./plain-table.ts";

const stems = ["energy", "diameter", "diameterX", "diameterY", "diameterUncertainty", "defocus"];

/**
 * Sites of a burn plate from CSV. Columns, each with its unit: energy_mJ; diameter_um, or diameterX_um and
 * diameterY_um for ellipses (0 where no mark was left); as you like diameterUncertainty_um, defocus_mm, and pulses.
 * Any unit of the same kind is taken. Throws InvalidInput, by line, for the first thing that does not fit.
 */
export function parseMarksCsv(text: string): BurnSite[] {
  const { header, rows } = readPlainTable(
    text,
    "marks file",
    (column) => column === "pulses" || stems.some((stem) => column === stem || column.startsWith(`${stem}_`)),
  );
  const needed = (stem: string, unit: string): UnitColumn =>
    unitColumn(header, stem, unit) ??
    invalid("marks file", header.join(" "), "", `the header line needs the column ${stem}_${unit}`);
  const energy = needed("energy", "mJ");
  const round = unitColumn(header, "diameter", "um");
  if (round !== null && unitColumn(header, "diameterX", "um") !== null)
    invalid("column", round.column, "", "either one diameter or diameterX and diameterY");
  const x = round ?? needed("diameterX", "um");
  const y = round === null ? needed("diameterY", "um") : null;
  const uncertainty = unitColumn(header, "diameterUncertainty", "um");
  const defocus = unitColumn(header, "defocus", "mm");
  return rows.map((row) => {
    const read = ({ column, unit, toSI }: UnitColumn, least: number, rule: string): number => {
      const value = row.number(column);
      if (value === null || !(value >= least)) invalid(`${column} on line ${row.line}`, value, unit, rule);
      return toSI(value);
    };
    const energySI = read(energy, 0, "must be above 0");
    if (energySI === 0) invalid(`${energy.column} on line ${row.line}`, 0, energy.unit, "must be above 0");
    const diameterX = read(x, 0, "must be 0 (no mark) or above");
    const diameterY = y === null ? null : read(y, 0, "must be 0 (no mark) or above");
    if (diameterY !== null && (diameterX === 0) !== (diameterY === 0))
      invalid(`${y!.column} on line ${row.line}`, row.text(y!.column), y!.unit, "a mark has two axes or none");
    const pulses = header.includes("pulses") ? row.number("pulses") : 1;
    if (pulses === null || !Number.isInteger(pulses) || pulses < 1)
      invalid(`pulses on line ${row.line}`, pulses, "", "must be a whole number, 1 or more");
    return {
      energy: energySI,
      diameterX,
      diameterY,
      uncertainty:
        uncertainty === null || row.number(uncertainty.column) === null
          ? null
          : read(uncertainty, 1e-9, "must be above 0"),
      pulses,
      defocus: defocus === null ? 0 : read(defocus, Number.NEGATIVE_INFINITY, "must be a number"),
    };
  });
}
