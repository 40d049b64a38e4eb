export type Cell = string | number | null;

export interface Column {
  /** the name carries the unit: `power_W`, `residue_percent` */
  readonly name: string;
  readonly kind: "number" | "text";
}

/** One table, whatever file it is written to. A CSV file holds one, a workbook one on each sheet. */
export interface Table {
  /** as people ask for it: `run-sheet` */
  readonly name: string;
  /** heading of its sheet in a workbook */
  readonly title: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Cell[])[];
}

export const numbers = (...names: readonly string[]): Column[] => names.map((name) => ({ name, kind: "number" }));
export const texts = (...names: readonly string[]): Column[] => names.map((name) => ({ name, kind: "text" }));

/** A row in the order of the columns; what it lacks is empty, and so is a number without meaning. */
export function rowOf(columns: readonly Column[], cells: Readonly<Record<string, Cell | undefined>>): Cell[] {
  return columns.map(({ name }) => {
    const cell = cells[name] ?? null;
    return typeof cell === "number" && !Number.isFinite(cell) ? null : cell;
  });
}
