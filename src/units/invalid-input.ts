/**
 * Refusal of an input, in one clear line: `invalid <name>: <value> <unit> (<rule>)`.
 * `where` says where the input stood (for example "line 12"); it is kept apart so that the line keeps its form.
 */
export class InvalidInput extends Error {
  readonly field: string;
  readonly value: string;
  readonly unit: string;
  readonly rule: string;
  readonly where: string | null;

  constructor(field: string, value: unknown, unit: string, rule: string, where: string | null = null) {
    const shown = showValue(value);
    super(`invalid ${field}: ${unit === "" ? shown : `${shown} ${unit}`} (${rule})`);
    this.name = "InvalidInput";
    this.field = field;
    this.value = shown;
    this.unit = unit;
    this.rule = rule;
    this.where = where;
  }
}

/** Longest piece of a refused value that is repeated to the person. */
const longestShown = 60;

function showValue(value: unknown): string {
  if (value === undefined || value === null) return "missing";
  if (typeof value === "number") {
    if (Number.isNaN(value)) return "not a number";
    if (!Number.isFinite(value)) return value > 0 ? "infinite" : "minus infinite";
    return String(value);
  }
  const text = typeof value === "object" ? "an object" : printable(String(value));
  if (text === "") return "missing";
  return text.length > longestShown ? `${text.slice(0, longestShown)}…` : text;
}

/** Control characters would let a refused value break the one line of the message. */
function printable(text: string): string {
  return text.replace(/[\p{Cc}\p{Zl}\p{Zp}]+/gu, " ").trim();
}

/**
 * Throws `InvalidInput`. `unit` is "" where the value has none.
 * @example invalid("speed", -3, "mm/s", "must be above 0") // invalid speed: -3 mm/s (must be above 0)
 */
export function invalid(name: string, value: unknown, unit: string, rule: string): never {
  throw new InvalidInput(name, value, unit, rule);
}

/** The same refusal with the place it was found at, for example "line 12". */
export function withPlace(error: InvalidInput, where: string): InvalidInput {
  return new InvalidInput(error.field, error.value, error.unit, error.rule, where);
}

/** One line for a person: the place, where known, then the message. */
export function invalidLine(error: InvalidInput): string {
  return error.where === null ? error.message : `${error.where}: ${error.message}`;
}
