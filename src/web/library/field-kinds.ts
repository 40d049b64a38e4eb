import type { Path } from "./tree.ts";

/** A figure or number in `si` as the file holds it, shown and typed in `panel`, as `#units` spells it. */
interface Measured {
  readonly path: Path;
  /** unit text of the file */
  readonly si: string;
  readonly panel: string;
}

export type Field =
  | ({ readonly kind: "figure"; readonly optional?: boolean } & Measured)
  | ({ readonly kind: "table" } & Measured)
  | ({ readonly kind: "number"; readonly whole?: boolean } & Measured)
  | { readonly kind: "text" | "lines"; readonly path: Path }
  | { readonly kind: "colour"; readonly path: Path }
  | { readonly kind: "choice" | "choices"; readonly path: Path; readonly values: readonly string[] }
  | { readonly kind: "rows"; readonly path: Path; readonly columns: readonly Column[] };

interface Column {
  readonly key: string;
  /** null: a name, no number */
  readonly panel: string | null;
}

/** Fields that belong together. One with a `block` may be left out of an entry as a whole. */
export interface Group {
  readonly key: string;
  /** what the group speaks of, where one kind of group stands there several times: a colour class */
  readonly of?: string;
  readonly block?: Path;
  readonly fields: readonly Field[];
}

/** Units of the files and those of a panel: the same quantity in numbers that are easily read (common practice). */
const panels: Readonly<Record<string, string>> = {
  "kg/m³": "kg/m3",
  "W/(m·K)": "W/(m*K)",
  "J/(kg·K)": "J/(kg*K)",
  K: "degC",
  "J/kg": "kJ/kg",
  "J/mol": "kJ/mol",
  "1/m": "1/mm",
  "1/K": "um/(m*K)",
  "m²/s": "m2/s",
  "1/s": "1/s",
  m: "um",
  "1": "",
};

export const figure = (path: Path, si: string, panel = panels[si] ?? si): Field => ({
  kind: "figure",
  path,
  si,
  panel,
});
export const maybe = (path: Path, si: string): Field => ({
  kind: "figure",
  path,
  si,
  panel: panels[si] ?? si,
  optional: true,
});
export const share = (path: Path): Field => figure(path, "1", "%");
export const table = (path: Path, si: string): Field => ({ kind: "table", path, si, panel: panels[si] ?? si });
export const number = (path: Path, si: string, panel: string): Field => ({ kind: "number", path, si, panel });
export const plain = (path: Path): Field => ({ kind: "number", path, si: "1", panel: "" });
export const text = (path: Path): Field => ({ kind: "text", path });
