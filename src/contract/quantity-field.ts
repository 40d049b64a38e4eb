import { z } from "zod";
import { fromSI, InvalidInput, parseQuantity } from "#units";

/** Bounds of one quantity in a file, in the unit of the file. */
export interface QuantityBounds {
  /** unit as #units spells it, for example "um"; "" for a plain number */
  readonly unit: string;
  /** the value must be greater than this */
  readonly above?: number;
  readonly min?: number;
  readonly max?: number;
  readonly description?: string;
}

const near = (bounds: QuantityBounds, limit: number): string =>
  `${limit}${bounds.unit === "" ? "" : ` ${bounds.unit}`}`;

/** Rule that a value breaks, or null. The first broken rule is named. */
function brokenBound(value: number, bounds: QuantityBounds): string | null {
  if (!Number.isFinite(value)) return "must be a finite number";
  if (bounds.above !== undefined && !(value > bounds.above)) return `must be greater than ${bounds.above}`;
  if (bounds.min !== undefined && value < bounds.min) return `must be at least ${near(bounds, bounds.min)}`;
  if (bounds.max !== undefined && value > bounds.max) return `must be at most ${near(bounds, bounds.max)}`;
  return null;
}

const acceptable = (bounds: QuantityBounds): string =>
  bounds.unit === "" ? "must be a number" : `must be a number in ${bounds.unit}, or a text with a unit that fits`;

/** Value in the unit of the file from a number or a text such as "0.035 mm"; a broken rule comes back as text. */
export function readQuantity(
  raw: number | string,
  bounds: QuantityBounds,
  name: string,
): number | { readonly rule: string } {
  let value: number;
  if (typeof raw === "number") value = raw;
  else {
    try {
      value = Number(fromSI(parseQuantity(raw, bounds.unit, name), bounds.unit).toPrecision(12));
    } catch (error) {
      if (!(error instanceof InvalidInput)) throw error;
      return { rule: error.rule };
    }
  }
  const rule = brokenBound(value, bounds);
  return rule === null ? value : { rule };
}

function described(bounds: QuantityBounds) {
  return {
    ...(bounds.description === undefined ? {} : { description: bounds.description }),
    ...(bounds.above === undefined ? {} : { exclusiveMinimum: bounds.above }),
    ...(bounds.min === undefined ? {} : { minimum: bounds.min }),
    ...(bounds.max === undefined ? {} : { maximum: bounds.max }),
  };
}

/** A quantity in a file: a number in the unit of its name, or a text with a unit of the same dimension. */
export function quantity(bounds: QuantityBounds) {
  return z
    .union([z.number(), z.string()], { error: acceptable(bounds) })
    .meta(described(bounds))
    .transform((raw, context): number => {
      const read = readQuantity(raw, bounds, "value");
      if (typeof read === "number") return read;
      context.issues.push({ code: "custom", message: read.rule, input: raw });
      return z.NEVER;
    })
    .pipe(z.number().meta(described(bounds)));
}

/** As `quantity`, and "unknown" as well. */
export function quantityOrUnknown(bounds: QuantityBounds) {
  return z
    .union([z.number(), z.string()], { error: `${acceptable(bounds)}, or "unknown"` })
    .meta(described(bounds))
    .transform((raw, context): number | "unknown" => {
      if (raw === "unknown") return "unknown";
      const read = readQuantity(raw, bounds, "value");
      if (typeof read === "number") return read;
      context.issues.push({ code: "custom", message: read.rule, input: raw });
      return z.NEVER;
    })
    .pipe(z.union([z.number(), z.literal("unknown")]).meta(described(bounds)));
}
