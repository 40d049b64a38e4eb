import { parseShop, type ShopFile, shopSchema, validate } from "#contract";
import { requireCurrency } from "#cost";
import { InvalidInput } from "#units";

/** What stands in the fields, as typed, by place in the file; an empty field is left out. */
export type Typed = Readonly<Record<string, string>>;

const textFields: readonly string[] = ["note", "currency", "otherMethod.name"];

/**
 * A number as people type it; anything else stays a text, which the file takes only where it has a unit that fits. A
 * comma before three digits may stand for thousands or for a decimal: it is refused rather than guessed.
 */
function typedValue(path: string, text: string): number | string {
  if (textFields.includes(path)) return text;
  const plain = text.replace(/[\s\u00a0\u202f]/g, "").replace(/^([+-]?\d*),(\d{1,2}|\d{4,})$/, "$1.$2");
  return /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(plain) ? Number(plain) : text;
}

/** The file that the fields say. An end of a range that is missing is null, which no file takes. */
export function shopDocOf(typed: Typed): Record<string, unknown> {
  const doc: Record<string, unknown> = {};
  const other: Record<string, unknown> = {};
  const ranges: Record<string, [unknown, unknown]> = {};
  for (const [path, raw] of Object.entries(typed)) {
    const text = raw.trim();
    if (text === "") continue;
    const [head = "", name = "", end = ""] = path.split(".");
    const value = typedValue(path, text);
    if (head === "otherMethod") other[name] = value;
    else if (head === "ranges") {
      ranges[name] ??= [null, null];
      ranges[name][end === "1" ? 1 : 0] = value;
    } else doc[head] = value;
  }
  if (Object.keys(other).length > 0) doc.otherMethod = { name: "", ...other };
  if (Object.keys(ranges).length > 0) doc.ranges = ranges;
  return doc;
}

/** The fields of a file. */
export function typedOf(shop: ShopFile): Typed {
  const typed: Record<string, string> = {};
  const put = (path: string, value: unknown): void => {
    if (value === undefined || value === null || value === "") return;
    // The ends of a range go by their places, 0 and 1.
    if (typeof value === "object") for (const [k, v] of Object.entries(value)) put(`${path}.${k}`, v);
    else typed[path] = String(value);
  };
  for (const [key, value] of Object.entries(shop)) if (key !== "$schema") put(key, value);
  return typed;
}

/** Names in the lines of the range check, and in the file. */
const rangeNames: Readonly<Record<string, string>> = {
  jobTime: "jobTime",
  hoursPerYear: "hoursPerYear_h",
  labour: "labour_per_h",
  energy: "energy_per_kWh",
  consumables: "consumables_per_h",
  filters: "filters_per_h",
  waste: "waste_per_h",
};

/** Place of the field that a line of refusal speaks of. */
function placeOf(field: string): string {
  const range = /^range of (\w+)$/.exec(field);
  if (range) return `ranges.${rangeNames[range[1]] ?? range[1]}`;
  const end = /^(ranges\.\w+)\[\d\]$/.exec(field);
  return end ? end[1] : field;
}

export type Checked =
  | { readonly shop: ShopFile; readonly errors: null }
  /** one line for each field that does not fit, by its place; a range has one line for both ends */
  | { readonly shop: null; readonly errors: Readonly<Record<string, string>> };

/** Ranges of which one end alone is filled, each with its line. */
function halfRanges(typed: Typed): Record<string, string> {
  const end = (path: string): string => (typed[path] ?? "").trim();
  const lines: Record<string, string> = {};
  for (const name of Object.values(rangeNames)) {
    const [low, high] = [end(`ranges.${name}.0`), end(`ranges.${name}.1`)];
    if ((low === "") !== (high === ""))
      lines[`ranges.${name}`] =
        `invalid range of ${name}: ${low || "nothing"} to ${high || "nothing"} (needs both ends or neither)`;
  }
  return lines;
}

/** Checks the fields as the server will. */
export function checkShop(typed: Typed): Checked {
  const half = halfRanges(typed);
  try {
    const shop = validate(shopSchema, shopDocOf(typed), "shop");
    requireCurrency(parseShop(shop).inputs.currency);
    return { shop, errors: null };
  } catch (error) {
    if (!(error instanceof InvalidInput)) throw error;
    const lines = (error as { all?: readonly string[] }).all ?? [error.message];
    const errors: Record<string, string> = { ...half };
    for (const line of lines) {
      const field = /^invalid ([^:]+): /.exec(line)?.[1] ?? "shop";
      errors[placeOf(field)] ??= line;
    }
    return { shop: null, errors };
  }
}
